#pragma once
#include <chrono>
#include <condition_variable>
#include <functional>
#include <mutex>

namespace barm::server {

/// Looks whether something has changed: when the bell is rung, and a few times a second besides.
/// Nothing that goes wrong while looking ends it.
class Watchman {
 public:
  using Look = std::function<void()>;

  explicit Watchman(Look look, std::chrono::milliseconds every = std::chrono::milliseconds(300));

  /// Until stop(). A fault is said on the terminal once, until looking has gone well again; a
  /// Refused is not, for whoever asks the daybook is told the same.
  void run();

  /// From any thread.
  void ring();
  void stop();

 private:
  bool wait();
  void look();
  void fault(const char* words);

  Look look_;
  std::chrono::milliseconds every_;
  std::mutex mutex_;
  std::condition_variable heard_;
  bool rung_ = false;
  bool stopped_ = false;
  bool said_ = false;  ///< that it goes wrong
};

}  // namespace barm::server

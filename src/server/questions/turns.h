#pragma once
#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>

namespace barm::server {

/// So many at once, first come first served: more forecasts than cores at a time would only make
/// each of them late. May be called from any thread.
class Turns {
 public:
  explicit Turns(int places) : places_(places), free_(places) {}

  /// A place for as long as it lives.
  class Turn {
   public:
    /// Waits for it. Throws Refused when `cancelled` (which may be empty) says so meanwhile.
    Turn(Turns& turns, const std::function<bool()>& cancelled);

    Turn(const Turn&) = delete;
    Turn& operator=(const Turn&) = delete;

    ~Turn() { turns_.leave(); }

   private:
    Turns& turns_;
  };

  [[nodiscard]] int places() const { return places_; }

 private:
  void enter(const std::function<bool()>& cancelled);
  void leave();

  std::mutex mutex_;
  std::condition_variable moved_;
  int places_;
  int free_;
  std::deque<const void*> row_;  ///< who waits, the first first
};

}  // namespace barm::server

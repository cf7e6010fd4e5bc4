#pragma once
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <mutex>

namespace barm::server {

/// So many at once, first come first served: more forecasts than cores at a time would only make
/// each of them late. May be called from any thread.
class Turns {
 public:
  explicit Turns(int places) : free_(places) {}

  /// A place for as long as it lives.
  class Turn {
   public:
    explicit Turn(Turns& turns) : turns_(turns) { turns_.enter(); }

    Turn(const Turn&) = delete;
    Turn& operator=(const Turn&) = delete;

    ~Turn() { turns_.leave(); }

   private:
    Turns& turns_;
  };

 private:
  void enter();
  void leave();

  std::mutex mutex_;
  std::condition_variable moved_;
  int free_;
  std::uint64_t next_ = 0;     ///< the ticket to be handed out
  std::uint64_t serving_ = 0;  ///< the ticket whose turn it is
};

}  // namespace barm::server

#include "server/turns.h"

namespace barm::server {

void Turns::enter() {
  std::unique_lock lock(mutex_);
  const std::uint64_t ticket = next_++;
  moved_.wait(lock, [&] { return free_ > 0 && serving_ == ticket; });
  --free_;
  ++serving_;
  moved_.notify_all();
}

void Turns::leave() {
  {
    const std::scoped_lock lock(mutex_);
    ++free_;
  }
  moved_.notify_all();
}

}  // namespace barm::server

#include "server/questions/turns.h"

#include <algorithm>
#include <chrono>

#include "server/door/problem.h"

namespace barm::server {

namespace {

constexpr auto ask_every = std::chrono::milliseconds(50);  // whether it is still wanted

}  // namespace

Turns::Turn::Turn(Turns& turns, const std::function<bool()>& cancelled) : turns_(turns) {
  turns_.enter(cancelled);
}

void Turns::enter(const std::function<bool()>& cancelled) {
  std::unique_lock lock(mutex_);
  const char here = 0;  // its place on this thread's stack is nobody else's
  const void* const ticket = &here;
  row_.push_back(ticket);
  while (!moved_.wait_for(lock, ask_every, [&] { return free_ > 0 && row_.front() == ticket; })) {
    if (!cancelled || !cancelled()) continue;
    row_.erase(std::find(row_.begin(), row_.end(), ticket));
    moved_.notify_all();
    throw Refused{problem(Error{ErrorCode::cancelled, "", "stopped before its turn came"})};
  }
  row_.pop_front();
  --free_;
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

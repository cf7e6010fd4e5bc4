#include "server/records/watchman.h"

#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <utility>

#include "base/complain.h"
#include "server/door/problem.h"

namespace barm::server {

Watchman::Watchman(Look look, std::chrono::milliseconds every)
    : look_(std::move(look)), every_(every) {}

void Watchman::run() {
  while (wait()) look();
}

void Watchman::look() {
  try {
    look_();
    said_ = false;
  } catch (const Refused&) {
    return;  // the daybook cannot be read just now
  } catch (const std::exception& error) {
    fault(error.what());
  } catch (...) {
    fault("an error of no known kind");
  }
}

void Watchman::fault(const char* words) {
  if (!said_)
    complain(fmt::format("barm: looking for changes of the daybook: {}; it is tried again", words));
  said_ = true;
}

bool Watchman::wait() {
  std::unique_lock lock(mutex_);
  heard_.wait_for(lock, every_, [&] { return rung_ || stopped_; });
  rung_ = false;
  return !stopped_;
}

void Watchman::ring() {
  {
    const std::scoped_lock lock(mutex_);
    rung_ = true;
  }
  heard_.notify_all();
}

void Watchman::stop() {
  {
    const std::scoped_lock lock(mutex_);
    stopped_ = true;
  }
  heard_.notify_all();
}

}  // namespace barm::server

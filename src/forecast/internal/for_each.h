#pragma once
#include <atomic>
#include <functional>
#include <mutex>
#include <optional>

#include "base/error.h"
#include "base/together.h"

namespace barm::forecast::internal {

/// Runs `one(i)` for every i below `count`, shared among threads (0: as many as the machine has);
/// the first error, or a wish to stop, ends it.
template <class One>
std::optional<Error> for_each(std::size_t count,
                              int wanted_threads,
                              const std::function<bool()>& cancelled,
                              const One& one) {
  std::atomic<std::size_t> next{0};
  std::optional<Error> error;
  std::mutex guard;
  const auto stop = [&](const Error& why) {
    const std::scoped_lock lock(guard);
    if (!error) error = why;
    next = count;
  };
  const auto work = [&] {
    for (std::size_t i = next++; i < count; i = next++) {
      if (cancelled && cancelled()) return stop({ErrorCode::cancelled, "", "stopped"});
      if (const std::optional<Error> wrong = one(i)) return stop(*wrong);
    }
  };
  together(wanted_threads, work);
  return error;
}

}  // namespace barm::forecast::internal

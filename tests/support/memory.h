#pragma once
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <functional>

namespace barm::test {

/// The most memory that some work takes beside what was there before, in bytes: in a process of its
/// own, which takes its threads and files with it. -1 when that is not to be had.
inline long memory_taken_by(const std::function<void()>& work) {
  constexpr long kibibyte = 1024;
  std::array<int, 2> ends{};
  if (::pipe(ends.data()) != 0) return -1;
  const pid_t child = ::fork();
  if (child == 0) {
    rusage before{};
    rusage after{};
    ::getrusage(RUSAGE_SELF, &before);
    work();
    ::getrusage(RUSAGE_SELF, &after);
    const long taken = kibibyte * (after.ru_maxrss - before.ru_maxrss);
    ::_exit(::write(ends[1], &taken, sizeof taken) == sizeof taken ? 0 : 1);
  }
  ::close(ends[1]);
  long taken = -1;
  if (::read(ends[0], &taken, sizeof taken) != sizeof taken) taken = -1;
  ::close(ends[0]);
  ::waitpid(child, nullptr, 0);
  return taken;
}

}  // namespace barm::test

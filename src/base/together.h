#pragma once
// Work that several threads share.
#include <functional>

namespace barm {

/// So many; as many as the machine has for 0.
[[nodiscard]] int threads_for(int wanted);

/// Does `work` in so many threads at once (0: as many as the machine has), this one among them, and
/// returns when it has ended in all of them. Each takes its share itself, till nothing is left: one
/// that is busy elsewhere may never begin. The others wait for the next call; a call within a call
/// is well. What `work` throws in this thread is thrown on; in another it ends the program.
void together(int threads, const std::function<void()>& work);

}  // namespace barm

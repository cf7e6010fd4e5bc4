#pragma once
// Which instructions the processor offers: the program carries its lanes twice and asks when it
// runs.

// The faster copy needs a compiler that can melt a whole call tree into one function of another
// instruction set: g++ can. Under sanitizers the calls stay, so there the plain copy does all the
// work.
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && defined(__OPTIMIZE__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define BARM_LANES_AVX2 [[gnu::target("avx2,fma"), gnu::flatten]]
#endif

namespace barm::numerics {

enum class Instructions { plain, avx2 };

/// The best this program and this processor have together.
[[nodiscard]] Instructions best_instructions();

}  // namespace barm::numerics

#include "numerics/lanes_dispatch.h"

namespace barm::numerics {

Instructions best_instructions() {
#ifdef BARM_LANES_AVX2
  if (__builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma")) return Instructions::avx2;
#endif
  return Instructions::plain;
}

}  // namespace barm::numerics

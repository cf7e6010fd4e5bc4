#pragma once
// The doubt of the law of growth itself. docs/model/estimation.md 5.
#include <algorithm>
#include <cmath>
#include <cstddef>

#include "estimation/internal/seen.h"
#include "numerics/random.h"

namespace barm::estimation::internal {

/// ln of the pace at which draw `i` of a seed goes on beyond the last reading, over the pace it
/// had. Readings pin down the numbers of our law as though it were true; others that fit them as
/// well part from it ahead, and most are slower. The more of a rise was seen, and the more often,
/// the more of the forecast rests on that; one look tells nothing of a course:
///     ln pace = (law z_i - slows) (1 - 1/n) r^2 / (r^2 + 0.1^2),
///     law^2 = laws_apart^2 + within_a_law^2,   r the largest rise of n heights, over the start
[[nodiscard]] inline double ln_pace_by_the_law(const DoughToRead& batch,
                                               const Seen& seen,
                                               unsigned long long seed,
                                               std::size_t i) {
  constexpr double telling_rise = 0.1;
  double rise = 0;
  double looks = 0;
  for (const Datum& datum : seen.data) {
    if (!datum.height) continue;
    rise = std::max(rise, datum.value - 1);
    ++looks;
  }
  if (looks == 0) return 0;
  const double rests = (1 - 1 / looks) * rise * rise / (rise * rise + telling_rise * telling_rise);
  const Pace& pace = batch.pace;
  const double z = numerics::Random(seed, (std::uint64_t{7} << 40) + i).normal();
  return (std::hypot(pace.laws_apart, pace.within_a_law) * z - pace.slows) * rests;
}

}  // namespace barm::estimation::internal

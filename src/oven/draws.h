#pragma once
// Many loaves in many ovens from a few solved: the answers as ranges.
#include <array>
#include <functional>
#include <vector>

#include "oven/bake.h"
#include "oven/cavity.h"

namespace barm::oven {

struct Range {
  double p10 = 0, p50 = 0, p90 = 0;
};

/// What is asked of each draw at a moment of the bake.
enum class Asked { core, surface, loss, colour, alcohol, count };
inline constexpr std::size_t asked_count = static_cast<std::size_t>(Asked::count);

struct AtMoment {
  double seconds = 0;
  std::array<Range, asked_count> range;
};

/// How far what was laid between the solved loaves was from loaves that were solved to look.
struct Laid {
  double core = 0;  ///< [K] the largest, over all moments
  double loss = 0;  ///< [share of the dough]
  int solved = 0, looked_at = 0;
};

struct Many {
  std::vector<AtMoment> course;
  Range core, loss, colour, alcohol;  ///< at the end
  Range in_crust, in_crumb;           ///< of the alcohol that went in, at the end
  Range vented;                       ///< share of the cavity's gas, at its highest
  Range done_after;            ///< [s] until the core has 96 C; 1e9: not within what was looked at
  double never_done = 0;       ///< share of draws
  Range cut_after, bag_after;  ///< [s] since the oven
  std::vector<double> done, cut, bag;  ///< [s] of each draw; 1e9: not within what was looked at
  std::vector<double> springs;         ///< what each would rise by, with room for it
  double cooling_loss = 0;
  Baked book;         ///< the middle
  Cooled cooled;      ///< of it
  Vapour vapour;      ///< of the typical loaf with the typical vent
  double warned = 0;  ///< share of draws whose vented cavity comes to a quarter of the limit
  Laid laid;
  int draws = 0;
};

/// Solves the typical loaf, each doubt at 1.8 standard deviations on either side, the first at 1 as
/// well, all four together at 1.2 either way, and three loaves more to look at; lays every draw's
/// answers through them by least squares,
///
///     y(z) = y_0 + sum_i (b_i z_i + c_i z_i^2) + sum_i<j d_ij z_i z_j + e z_0^3
///
/// at each moment, y being the core as a logit between its start and the boil, alcohol as a
/// logarithm, the rest as it is. `Laid` says how far off the three were. Two things only scale a
/// draw's answers: how much of its gas a dough keeps, and how fast it browns. On so many threads, 0
/// for all of the machine's; the answer is the same. Checked against:
/// tests/oven/draws_test.cpp.
[[nodiscard]] Many many(const Loaf& loaf,
                        const Oven& oven,
                        const LearnedOven& known,
                        Time lasts,
                        Temperature room,
                        int draws,
                        unsigned long long seed,
                        int threads = 0);

/// Volume at the end over that at going in, of doughs with such room in such ovens, the k-th dough
/// in the k-th oven and each round again:
///
///     1 + min(room_k, spring_k)
[[nodiscard]] Range risen(const std::vector<double>& springs, const std::vector<double>& rooms);

/// Many::alcohol and Many::loss and nothing else, the same to the last digit: what is asked of a
/// loaf that is eaten, for less than half the work.
struct Left {
  Range alcohol, loss;
};

[[nodiscard]] Left left_at_the_end(const Loaf& loaf,
                                   const Oven& oven,
                                   const LearnedOven& known,
                                   Time lasts,
                                   int draws,
                                   unsigned long long seed,
                                   int threads = 0);

}  // namespace barm::oven

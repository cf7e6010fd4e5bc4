#pragma once
// How a bake becomes steps for the day's planner, and whence their hours come.
#include "base/result.h"
#include "dayplan/day.h"
#include "service/day/file.h"
#include "service/day/hours.h"
#include "service/day/oven.h"

namespace barm::service {

/// Minutes of work and waits that no bake file says: common practice, no source. docs/day.md.
struct Habits {
  dayplan::Minutes feed = 10, mix = 20, fold = 5, into_the_fridge = 5;
  dayplan::Minutes a_batch = 5, a_loaf = 2;  ///< to divide, shape, load and unload
  float levain_earlier = 30, levain_later = 60;
  float fold_later = 15;
  float bench_rest = 15, bench_rest_longer = 30;
  float shaped_waits = 20;  ///< before the fridge
  float proof = 120;        ///< of a bake that names none
  float proof_waits = 30;   ///< of a loaf proofed by the clock
  float cold_waits = 120;   ///< of a loaf in the cold for so long
  float at_its_best = 30;   ///< before it is past it: a loaf that is sooner so than by the clock
  float oven_waits = 10;
};

/// The places of the house, in the order of the steps' uses.
[[nodiscard]] std::vector<dayplan::Resource> house_of(const DayFile& day);

/// "bulk at 27 °C, through the fridge, in 2 loads, with 30 % levain"; "as its file says" of none.
[[nodiscard]] std::string way_name(const OtherWay& way);

/// What is drawn of a way: its dough, and what becomes of its loaves in the oven.
struct WayDraws {
  DoughDraws dough = {{1}, {1}};
  OvenMinutes oven = {};
};

/// The steps of one way. A loaf that is to proof or lie in the cold for a time T, and of which
/// dough k is past its best S_k after that, waits for the oven
///
///     from  min(T, T + S_k - at its best)   until  T + min(S_k, what bakers allow)
///
/// and one that proofs to a volume from when it is there until it is past its best. Errors:
/// bad_input for a bake the planner has no steps for.
[[nodiscard]] Result<dayplan::Way> steps_of(const DayFile& day,
                                            const DayBake& bake,
                                            const OtherWay& way,
                                            const WayDraws& drawn);

}  // namespace barm::service

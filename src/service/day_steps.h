#pragma once
// How a bake becomes steps for the day's planner, and whence their hours come.
#include "base/result.h"
#include "dayplan/day.h"
#include "forecast/ensemble.h"
#include "service/day_file.h"

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
  float oven_waits = 10;
};

/// What the forecast says of the bulk of one way of a bake, one value a dough.
struct BulkDraws {
  dayplan::Draws ready;  ///< [min] since mixing; infinite when never
  dayplan::Draws lasts;  ///< [min] it is good then
};

/// Of the bake left in its first bulk, at another temperature where `way` says so: the same doughs,
/// ready and past their best (forecast/timeline.h). Errors: those of forecast::foresee();
/// cannot_be_met where more than half never get ready.
[[nodiscard]] Result<BulkDraws> bulk_draws(const formula::Bake& bake,
                                           const OtherWay& way,
                                           const forecast::Options& options);

/// The places of the house, in the order of the steps' uses.
[[nodiscard]] std::vector<dayplan::Resource> house_of(const DayFile& day);

/// The steps of one way. Errors: bad_input for a bake the planner has no steps for.
[[nodiscard]] Result<dayplan::Way> steps_of(const DayFile& day,
                                            const DayBake& bake,
                                            const OtherWay& way,
                                            const BulkDraws& bulk);

}  // namespace barm::service

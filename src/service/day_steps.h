#pragma once
// How a bake becomes steps for the day's planner, and whence their hours come.
#include "base/result.h"
#include "dayplan/day.h"
#include "service/day_file.h"
#include "service/day_hours.h"

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

/// The places of the house, in the order of the steps' uses.
[[nodiscard]] std::vector<dayplan::Resource> house_of(const DayFile& day);

/// "bulk at 27 °C, through the fridge, in 2 loads, with 30 % levain"; "as its file says" of none.
[[nodiscard]] std::string way_name(const OtherWay& way);

/// The steps of one way. Errors: bad_input for a bake the planner has no steps for.
[[nodiscard]] Result<dayplan::Way> steps_of(const DayFile& day,
                                            const DayBake& bake,
                                            const OtherWay& way,
                                            const BulkDraws& bulk);

}  // namespace barm::service

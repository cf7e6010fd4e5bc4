#pragma once
// A plan as rows: each step by the clock, and who holds what of the house.
#include <vector>

#include "dayplan/day.h"
#include "service/day/day.h"

namespace barm::service {

/// A minute of the plan on the clock.
[[nodiscard]] time::Instant at_minute(const DayFile& file, dayplan::Minutes minute);

/// The steps of all bakes in order of their beginning.
[[nodiscard]] std::vector<DayStep> steps_by_the_clock(const DayFile& file,
                                                      const dayplan::Day& day,
                                                      const dayplan::Plan& plan);

/// A row for each thing of the house, in its order; a row that nobody needs is empty.
[[nodiscard]] std::vector<HeldRow> held_rows(const DayFile& file,
                                             const dayplan::Day& day,
                                             const dayplan::Plan& plan);

}  // namespace barm::service

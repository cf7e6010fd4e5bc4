#pragma once
// A day that is laid: its doughs drawn, its timetable made, what of it collides tried and told.
// From here a step is moved by hand without drawing anything again.
#include <optional>
#include <string>
#include <vector>

#include "dayplan/plan.h"
#include "service/day/day.h"

namespace barm::service {

struct LaidDay {
  DayFile file;
  dayplan::Day day;  ///< drawn for the plan, by every way
  dayplan::Planned planned;
  std::optional<dayplan::Day> fresh;  ///< drawn anew for the chance, by the ways planned; where
                                      ///< there is a plan
  int draws = 0;
  std::vector<std::string> why_not, collisions, cautions;
};

/// With the plan of `request.from`, else the best that is found. Errors: those of with_ovens() and
/// drawn_day(); bad_input for a plan that is none of this day or does not hold; cancelled.
[[nodiscard]] Result<LaidDay> lay_day(const DayFile& as_read, const DayRequest& request);

/// What is told of it: of its plan or of `request.from`, which goes by the same ways, with the step
/// of `request.move` elsewhere where it can be. Errors: bad_input for a plan that is none of this
/// day, goes other ways or does not hold, and for a step to move that is none.
[[nodiscard]] Result<DayAnswer> day_answer(const LaidDay& laid, const DayRequest& request);

/// A minute of the day in words, "Sat 05:10".
[[nodiscard]] std::string said_minute(const DayFile& file, dayplan::Minutes minute);

}  // namespace barm::service

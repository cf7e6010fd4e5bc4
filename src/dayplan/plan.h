#pragma once
// The plan of a day: of all bakes, which way each goes and when each step begins.
#include <functional>
#include <optional>
#include <vector>

#include "base/result.h"
#include "dayplan/full.h"
#include "dayplan/timetable.h"

namespace barm::dayplan {

struct Effort {
  bool to_the_end = false;   ///< until nothing better exists, however long that takes
  bool by_the_draws = true;  ///< then shift steps while more doughs come through (below)
  long patience = 20'000;    ///< so many dead ends of the solver, where it is not to the end
  std::function<bool()> cancelled = nullptr;
  std::function<void(double)> progress = nullptr;  ///< told the share done, ascending
};

/// What stands in the way where no plan was found.
struct Stuck {
  std::vector<std::size_t> bakes;  ///< that cannot be had together: leave one out and it goes; one
                                   ///< alone cannot be made even with the house to itself
  bool surely = false;             ///< shown by searching everything; else only not found
  std::optional<OverFull> full;    ///< shown without a search
};

struct Planned {
  std::optional<Plan> plan;  ///< without faults (check.h)
  std::vector<std::optional<Course>> alone =
      {};             ///< the best of each bake with the house to itself
  long cost = 0;      ///< of the timetable (window.h), before steps were shifted
  bool best = false;  ///< no timetable costs less
  Stuck stuck;        ///< where there is no plan
};

/// Two steps. The solver (timetable.h) looks for the ways and the timetable by which most doughs
/// are within their windows on the clock, and leave time enough for the bread (window.h): all bakes
/// at once where they are up to three, else one bake after the other laid beside those that lie,
/// then one and two taken up and laid anew while that makes it cheaper. Then single steps and runs
/// of steps are shifted while more of the same doughs come through when the plan is worked
/// (shift.h), and the bakes that fail most are tried by their other ways: slack goes to where the
/// doubt is. The answer follows from the question alone, not from the clock. Errors: cancelled.
[[nodiscard]] Result<Planned> plan(const Day& day,
                                   const std::vector<Pin>& pins = {},
                                   const Effort& effort = {});

/// What plan() tells of a plan that is there and holds: no other is sought. Errors: cancelled.
[[nodiscard]] Result<Planned> planned_as(const Day& day, Plan plan, const Effort& effort = {});

}  // namespace barm::dayplan

#pragma once
// Slack moved to where the doubt is.
#include <functional>
#include <vector>

#include "dayplan/timetable.h"

namespace barm::dayplan {

/// The plan with steps, and runs of steps, of one bake after the other shifted as long as more
/// draws of the whole house go well (work.h), and no fewer of the bake's own with the house to
/// itself (due.h); the bakes that fail most first, so many tries of the whole house in all. Pinned
/// steps stay. No faults where the plan had none.
[[nodiscard]] Plan shifted(const Day& day,
                           const Plan& plan,
                           const std::vector<Pin>& pins,
                           int tries,
                           const std::function<void(double)>& progress = nullptr);

}  // namespace barm::dayplan

#pragma once
// One step moved by hand, the rest left as it is as far as may be.
#include <optional>
#include <vector>

#include "dayplan/check.h"

namespace barm::dayplan {

struct Moved {
  std::optional<Plan> plan;   ///< without faults; none where the step cannot be there
  std::vector<At> along;      ///< other steps that had to move
  std::vector<Fault> broken;  ///< by moving the step alone
};

/// The step at a minute of the grid. First alone; where that breaks something, with the rest of its
/// bake moved as little as may be; then also that of up to two bakes that are in the way. Ways stay
/// as they are.
[[nodiscard]] Moved move(const Day& day, const Plan& plan, At step, Minutes to);

}  // namespace barm::dayplan

#pragma once
// A plan told and told back, and one step of it moved by hand.
#include <string>
#include <vector>

#include "service/day/laid_day.h"

namespace barm::service {

[[nodiscard]] std::vector<BakePlan> told_plan(const DayFile& file,
                                              const dayplan::Day& day,
                                              const dayplan::Plan& plan);

/// The plan that was told, whether it holds or not. Errors: bad_input for one that is none of this
/// day.
[[nodiscard]] Result<dayplan::Plan> plan_told(const DayFile& file,
                                              const dayplan::Day& day,
                                              const std::vector<BakePlan>& told);

/// The same of one that holds (dayplan/check.h). Errors: also bad_input for one that does not.
[[nodiscard]] Result<dayplan::Plan> plan_that_holds(const DayFile& file,
                                                    const dayplan::Day& day,
                                                    const std::vector<BakePlan>& told);

struct MovedPlan {
  dayplan::Plan plan;             ///< as it was where the step cannot be there
  std::vector<std::string> told;  ///< what moved along, or what would break
  bool refused = false;
};

/// Errors: bad_input for a step that is none, or no moment.
[[nodiscard]] Result<MovedPlan> moved_by_hand(const LaidDay& laid,
                                              const dayplan::Plan& plan,
                                              const MoveRequest& request);

}  // namespace barm::service

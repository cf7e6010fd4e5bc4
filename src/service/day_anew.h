#pragma once
// The plan the house goes by, laid anew after one of its bakes was read or ticked off.
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "service/day.h"
#include "service/now.h"
#include "storage/daybook.h"

namespace barm::service {

/// One step of a kept plan that has not begun.
struct KeptStep {
  std::string bake, step;
  time::Instant begins, ends;
};

/// A plan as it was kept.
struct KeptPlan {
  std::string name;
  time::Instant bread;
  std::string text;             ///< of the day
  std::string made_from;        ///< DayAnswer::made_from
  std::vector<KeptStep> steps;  ///< by the clock
  std::vector<BakePlan> plan;
};

struct DayAnew {
  std::vector<KeptStep> steps;    ///< by the clock; those of the kept plan where it cannot be held
  std::vector<std::string> told;  ///< what moved, from when to when; or why it cannot be held
};

/// The doughs are drawn as they stand now, what has begun stays, what cannot lie where it did is
/// laid near to it (dayplan/near.h). Nothing where all is known of its bakes that was known when it
/// was made. Worked out once, and kept for as long as nothing else comes in. Errors: those of the
/// daybook, cancelled.
[[nodiscard]] Result<std::optional<DayAnew>> day_anew(
    storage::Daybook& daybook,
    const KeptPlan& kept,
    const Now& now,
    const std::function<bool()>& cancelled = nullptr);

}  // namespace barm::service

#pragma once
// A plan of the day made again after one of its bakes was read or ticked off.
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "service/day/day.h"
#include "service/now.h"
#include "storage/daybook.h"

namespace barm::service {

/// One step of a plan that has not begun.
struct KeptStep {
  std::string bake, step;
  time::Instant begins, ends;
};

/// A plan and what it was made of.
struct MadePlan {
  std::string text;       ///< of the day
  std::string made_from;  ///< DayAnswer::made_from
  std::vector<BakePlan> plan;
};

/// A plan made again, near to the one there was.
struct DayAnew {
  std::string made_from;          ///< of now; empty where its day cannot be read any more
  std::vector<std::string> told;  ///< what moved, from when to when; or why it cannot be held
  time::Instant begins;           ///< of the day made again
  std::vector<BakePlan> plan;     ///< empty where it cannot be held
  std::vector<KeptStep> steps;    ///< of the plan, by the clock
};

/// The doughs are drawn as they stand now, what has begun stays, what cannot lie where it did is
/// laid near to it (dayplan/near.h). Nothing where all is known of its bakes that was known when it
/// was made. Worked out once, and kept for as long as nothing else comes in. Errors: those of the
/// daybook, cancelled.
[[nodiscard]] Result<std::optional<DayAnew>> day_anew(
    storage::Daybook& daybook,
    const MadePlan& made,
    const Now& now,
    const std::function<bool()>& cancelled = nullptr);

}  // namespace barm::service

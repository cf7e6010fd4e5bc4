#pragma once
// The plan of the day that the house goes by: kept in the daybook as the setting "day-plan", shown
// on Today.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "service/day/anew.h"
#include "service/now.h"
#include "storage/daybook.h"

namespace barm::service {

/// Keeps `text`, the day that was asked, with its plan in place of the one kept before. Errors:
/// bad_input without a plan; those of the daybook.
[[nodiscard]] Result<storage::Setting> keep_day(storage::Daybook& daybook,
                                                const std::string& text,
                                                const DayAnswer& answer,
                                                const Now& now);

/// What is next by the kept plan.
struct KeptDay {
  std::string name;
  time::Instant bread;
  std::vector<KeptStep> next;     ///< the first of them is next; at most four
  std::vector<std::string> anew;  ///< what moved, or does not hold, since one of its bakes was read
                                  ///< or ticked off; empty where none was
};

/// Nothing where none is kept, or its bread has been wanted already. A step counts as done a
/// quarter of an hour after its end. Where a bake of it was read or ticked off since, the plan is
/// that of day_anew(). `cancelled`, asked now and then, stops it.
[[nodiscard]] Result<std::optional<KeptDay>> kept_day(
    storage::Daybook& daybook, const Now& now, const std::function<bool()>& cancelled = nullptr);

/// A plan as it is told after something came in.
struct DayAgain {
  std::string text;               ///< of the day
  std::string made_from;          ///< of now: DayAnew::made_from
  std::vector<std::string> told;  ///< what moved, or why it cannot be held; empty where nothing has
                                  ///< come in since it was made
  std::optional<DayAnswer> day;   ///< the plan as it is now; empty where it cannot be held
};

/// The plan the house goes by, made again where something came in since. Draws, seed and
/// plan are not those of `request`. Errors: not_found where none is kept; those of day_anew(),
/// plan_day().
[[nodiscard]] Result<DayAgain> day_again(storage::Daybook& daybook,
                                         const Now& now,
                                         DayRequest request);

/// The house stays with the plan as it was kept, whatever came in until now. Errors: not_found
/// where none is kept; cannot_be_met where its day cannot be read any more; those of the daybook.
[[nodiscard]] Result<storage::Setting> stay_with_kept(storage::Daybook& daybook, const Now& now);

/// "barm.day_again/1".
[[nodiscard]] nlohmann::json to_json(const DayAgain& again);

/// Null where there is none.
[[nodiscard]] nlohmann::json to_json(const std::optional<KeptDay>& day);

}  // namespace barm::service

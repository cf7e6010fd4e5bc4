#pragma once
// The plan of the day that the house goes by: kept in the daybook as the setting "day-plan", shown
// on Today.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "service/day_anew.h"
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

/// Null where there is none.
[[nodiscard]] nlohmann::json to_json(const std::optional<KeptDay>& day);

}  // namespace barm::service

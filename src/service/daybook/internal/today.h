#pragma once
// The parts of today: doughs that are alive, levains, what ordinary breads take.
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "forecast/timeline.h"
#include "formula/bowl.h"
#include "service/daybook/daybook.h"
#include "service/daybook/kept_bake.h"
#include "service/shop/provisions.h"

namespace barm::service::internal {

inline time::Instant after(time::Instant moment, Time time) {
  return moment + std::llround(time.si());
}

inline std::optional<time::Instant> after(time::Instant moment, std::optional<Time> time) {
  return time ? std::optional(after(moment, *time)) : std::nullopt;
}

inline time::Instant quarter(time::Instant at) {
  return time::to_nearest(time::seconds_a_quarter, at);
}

inline constexpr std::int64_t an_hour = 3600;

/// A bake that matters today, with all that is known of it.
struct Alive {
  storage::Bake record;
  std::vector<storage::Mark> marks;
  formula::Bake bake;
  formula::Bowl bowl;           ///< of the middle dough
  forecast::Timeline timeline;  ///< after mixing
  std::string rests_on;
};

/// What has to be fed for a bake and when; nothing without a levain of its own.
struct ToFeed {
  time::Instant at;
  FedLevain levain;
};

[[nodiscard]] std::optional<ToFeed> levain_of(const Alive& alive);

/// Doughs to be told of: live ones, and planned ones from a day ago to two days ahead. One whose
/// file cannot be read is told in the answer at once.
[[nodiscard]] Result<std::vector<Alive>> living(storage::Daybook& daybook,
                                                TodayAnswer& answer,
                                                const Now& now,
                                                const AsRead& as_read);

[[nodiscard]] Result<DoughToday> dough_today(const Alive& alive, const Now& now);

/// Something to feed and when; said in order of time.
using Feedings = std::vector<std::pair<time::Instant, std::string>>;

/// Noon of the next day.
[[nodiscard]] time::Instant tonight_ends(const Now& now);

/// Every culture, what of them is to be fed tonight, and how much of them the planned doughs take.
[[nodiscard]] Result<bool> add_levains(TodayAnswer& answer,
                                       Feedings& tonight,
                                       storage::Daybook& daybook,
                                       const std::vector<Alive>& doughs,
                                       const Now& now);

/// All ordinary breads of the next day on which some are mixed: today's while there are any.
void weigh_ordinary(TodayAnswer& answer, const std::vector<Alive>& doughs, const Now& now);

}  // namespace barm::service::internal

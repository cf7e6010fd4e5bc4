#pragma once
// What slows a dough, what it can hold, why it never gets there and what would mend it: one wording
// for the terminal, the page and print.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

#include "forecast/ensemble.h"
#include "forecast/in_the_way.h"
#include "forecast/why_never.h"
#include "time/wall_clock.h"

namespace barm::service {

/// "never doubled: it holds 1.6 times at most", or "not within 72 h": in place of an hour.
[[nodiscard]] std::string in_place_of_ready(const forecast::Forecast& forecast,
                                            const std::optional<forecast::WhyNever>& why);

/// "holds 1.6 times at most (1.5 to 1.8); use it between 10:15 and 11:30"; empty where gluten holds
/// the dough and it gets there.
[[nodiscard]] std::string limit_words(const forecast::Forecast& forecast,
                                      const std::optional<forecast::WhyNever>& why,
                                      const time::WallClock& clock);

/// Which of the three it is, in a sentence.
[[nodiscard]] std::string_view words(forecast::Obstacle obstacle);

/// "at most 9 % of the liquid as vinegar instead of 30 %", "24 °C instead of 34 °C".
[[nodiscard]] std::string words(const forecast::Change& change);

/// The member `in_the_way` of an answer.
[[nodiscard]] nlohmann::json to_json(const forecast::InTheWay& way);

/// The members `limit` and `why_never` of an answer.
void add_limits(nlohmann::json& out,
                const forecast::Forecast& forecast,
                const std::optional<forecast::WhyNever>& why,
                const time::WallClock& clock);

}  // namespace barm::service

#pragma once
// What can be done with a dough that is late or ahead, in a baker's words.
#include <optional>
#include <string>
#include <vector>

#include "service/bake/rescue.h"

namespace barm::service::internal {

/// "knead in 90 g of ripe levain".
[[nodiscard]] std::string way_in_words(const forecast::WayOut& way, const forecast::Rescue& rescue);

/// One sentence: what comes of it in the dough.
[[nodiscard]] std::string reason_of(const forecast::WayOut& way, const forecast::Rescue& rescue);

/// Its price in time, room and money.
[[nodiscard]] std::string cost_of(const ToldWay& told,
                                  const forecast::Rescue& rescue,
                                  const std::string& currency);

[[nodiscard]] std::vector<std::string> cautions_of(const RescueAnswer& answer,
                                                   const formula::Bowl& bowl);

/// When fewer than one in ten such doughs would still be ready.
[[nodiscard]] std::string giving_up_in_words(const RescueAnswer& answer,
                                             const time::WallClock& clock);

/// Which doughs the answer rests on; `risen`: what was seen of it.
[[nodiscard]] std::string what_it_rests_on(const RescueAnswer& answer, std::optional<double> risen);

}  // namespace barm::service::internal

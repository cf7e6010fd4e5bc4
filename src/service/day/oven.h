#pragma once
// How long a bake of a day takes in the oven and on the rack.
#include "dayplan/day.h"
#include "service/oven/oven.h"

namespace barm::service {

/// [min], one alone or one of each loaf drawn. Where the bake says no oven: common practice, no
/// source.
struct OvenMinutes {
  dayplan::Draws in_it = {45};
  dayplan::Draws cooling = {120};  ///< until it can be cut
};

/// Of a bake with an [oven], so many loaves: those of the answer, and round again.
[[nodiscard]] OvenMinutes oven_minutes(const std::optional<OvenAnswer>& answer, int draws);

/// The same of other loaves, drawn anew.
[[nodiscard]] OvenMinutes oven_minutes_anew(const std::optional<OvenAnswer>& answer,
                                            const forecast::Options& options);

}  // namespace barm::service

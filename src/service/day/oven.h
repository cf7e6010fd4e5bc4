#pragma once
// How long a bake of a day takes in the oven and on the rack.
#include "dayplan/day.h"
#include "service/oven/oven.h"

namespace barm::service {

/// [min], one alone or one of each loaf drawn.
struct OvenMinutes {
  dayplan::Draws in_it;
  dayplan::Draws cooling;  ///< until it can be cut
};

/// Of so many loaves: those of the answer, and round again.
[[nodiscard]] OvenMinutes oven_minutes(const OvenAnswer& answer, int draws);

/// The same of other loaves, drawn anew.
[[nodiscard]] OvenMinutes oven_minutes_anew(const OvenAnswer& answer,
                                            const forecast::Options& options);

}  // namespace barm::service

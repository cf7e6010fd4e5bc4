#pragma once
// The ovens of a day: what each says of its bake, how long it takes in there and on the rack.
#include "dayplan/day.h"
#include "service/day/file.h"

namespace barm::service {

/// Every bake with oven_as_written(), in its loaves of the day where its file names no pieces.
/// Errors: those of oven(), at the bake's place.
[[nodiscard]] Result<DayFile> with_ovens(DayFile file, const forecast::Options& options = {});

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

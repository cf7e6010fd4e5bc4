#pragma once
// How long a bake of a day takes in the oven and on the rack.
#include "base/result.h"
#include "formula/bake.h"

namespace barm::service {

/// [min] Where the bake says no oven: common practice, no source.
struct OvenMinutes {
  float in_it = 45;
  float cooling = 120;
};

/// Of a bake with an [oven] the middle of the loaves, and until nine of ten can be cut: the minutes
/// of `barm oven`. Errors: those of its_oven().
[[nodiscard]] Result<OvenMinutes> oven_minutes(const formula::Bake& bake);

}  // namespace barm::service

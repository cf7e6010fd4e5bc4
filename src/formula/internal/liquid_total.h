#pragma once
#include "formula/bake.h"
#include "formula/document.h"

namespace barm::formula::internal {

/// All the liquid of a bowl: "70 %" of the flour, or "700 g". Stops at what cannot be.
[[nodiscard]] LiquidTotal liquid_of(const Node& value);

/// The liquid on flour lies between these.
inline constexpr double least_liquid = 0.01, most_liquid = 10;

}  // namespace barm::formula::internal

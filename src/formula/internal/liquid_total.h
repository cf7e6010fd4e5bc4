#pragma once
#include "formula/bake.h"
#include "formula/internal/document.h"

namespace barm::formula::internal {

/// The liquid of a bowl whose lines are read, on flour: "70 %", or "700 g" where the flour is a
/// weight too. Stops at what cannot be.
[[nodiscard]] double liquid_of_flour(const Node& value, const Bake& bake);

}  // namespace barm::formula::internal

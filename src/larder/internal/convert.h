#pragma once
#include <string_view>

#include "larder/property.h"
#include "units/quantity.h"

namespace barm::larder::internal {

/// A value of data/larder/ in the unit of larder/property.h, for an ingredient of that density:
///     w = c / rho  for a part per volume,   w = M n  for an amount of an acid
/// The units are those that tools/compile_larder allows.
[[nodiscard]] double in_si(Property property, std::string_view unit, double value, Density density);

}  // namespace barm::larder::internal

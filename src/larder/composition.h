#pragma once
#include <array>
#include <functional>
#include <vector>

#include "base/result.h"
#include "larder/ingredient.h"
#include "units/fraction.h"
#include "units/quantity.h"

namespace barm::larder {

/// An ingredient with every number settled: what one kilogram of it brings.
/// Index by Property; mass fractions sum to at most 1. `strength` and `ethanol` agree by OIML R 22.
struct Composition {
  std::array<double, property_count> value{};

  [[nodiscard]] double operator[](Property property) const { return value[static_cast<std::size_t>(property)]; }

  [[nodiscard]] double& operator[](Property property) { return value[static_cast<std::size_t>(property)]; }

  [[nodiscard]] Density density() const { return Density::from_si((*this)[Property::density]); }

  [[nodiscard]] Ph ph() const { return Ph((*this)[Property::ph]); }
};

/// The composition with every property at its typical value; unknown ones at the typical value of what is
/// assumed for the group, or zero where they may be taken as absent.
/// Errors: bad_input when the numbers contradict one another (a drink without strength, parts above 1 kg/kg).
[[nodiscard]] Result<Composition> typical(const Ingredient& ingredient);

/// One draw of what the bottle may really hold: each property between its low and high, from standard
/// normal numbers supplied by `normal()`. With all draws 0 it equals typical().
[[nodiscard]] Result<Composition> drawn(const Ingredient& ingredient, const std::function<double()>& normal);

/// The properties that are unknown and had to be assumed, for the words of doubt.
[[nodiscard]] std::vector<Property> assumed_properties(const Ingredient& ingredient);

}  // namespace barm::larder

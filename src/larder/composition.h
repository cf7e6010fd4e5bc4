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
/// Index by Property; the mass fractions sum to 1, free sulphite being part of the total.
///
/// In what is poured, and in a starter, water is what the rest leaves; elsewhere the stated water
/// stands and the dry matter fills the rest in proportion. A stated strength goes before a stated
/// ethanol:
///
///     e = strength 789.24 kg/m3 / rho
///     1 / rho = (w + e) / rho_OIML(e / (w + e)) + 1.08 mL/g fat + 0.62 mL/g (everything else)
///
/// unless the density itself is stated. A starter's flour parts are stated per kg of its flour and
/// thinned by 1 / (1 + hydration). Flour, starters and malt buffer by their ash, 8 + 20 ash%
/// mmol/(kg pH), where nothing better is stated; a pH that nobody states is 7. Source: oiml_r22 and
/// data/larder.toml. Checked against: tests/larder/composition_test.cpp.
struct Composition {
  std::array<double, property_count> value{};

  [[nodiscard]] double operator[](Property property) const {
    return value[static_cast<std::size_t>(property)];
  }

  [[nodiscard]] double& operator[](Property property) {
    return value[static_cast<std::size_t>(property)];
  }

  [[nodiscard]] Density density() const { return Density::from_si((*this)[Property::density]); }

  [[nodiscard]] Ph ph() const { return Ph((*this)[Property::ph]); }
};

/// The composition with every property at its typical value; unknown ones at the typical value of
/// what is assumed for the group, or zero where they may be taken as absent. Errors: bad_input when
/// the numbers contradict one another (a drink without strength, parts above 1 kg/kg).
[[nodiscard]] Result<Composition> typical(const Ingredient& ingredient);

/// One draw of what the bottle may really hold: each property between its low and high, from
/// standard normal numbers supplied by `normal()`. With all draws 0 it equals typical(); -+1.645
/// gives low and high, each side with its own width, on a logarithmic scale where high > 3 low > 0.
/// `normal` is called equally often and in the same order for every ingredient; an ingredient's
/// sugars share one number, its sulphites another; minerals share that of the ash.
[[nodiscard]] Result<Composition> drawn(const Ingredient& ingredient,
                                        const std::function<double()>& normal);

/// The properties that are unknown and had to be assumed, for the words of doubt.
[[nodiscard]] std::vector<Property> assumed_properties(const Ingredient& ingredient);

}  // namespace barm::larder

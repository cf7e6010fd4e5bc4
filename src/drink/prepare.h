#pragma once
// What else is done to a drink before it goes in: let go flat, steep something in it, thin it.
#include "base/result.h"
#include "larder/composition.h"
#include "larder/ingredient.h"

namespace barm::drink {

/// What a preparation leaves: a kilogram of it, and how much of the drink that took.
struct Prepared {
  larder::Composition composition;
  double needs = 1;  ///< kg of the drink for a kilogram
};

/// Stirred or left to stand until it sparkles no more; the larder's own gas where that is less.
/// Source: remembered (data/drink.toml). Checked against: tests/drink/prepare_test.cpp.
[[nodiscard]] larder::Composition flat(larder::Composition drink);

/// So much of something, over the drink's weight, steeped in it and strained off: its sugars,
/// acids, bitterness and minerals come over by a share, and it holds liquid back. Errors:
/// cannot_be_met where it would hold back all of it. Source: practice (data/drink.toml). Checked
/// against: tests/drink/prepare_test.cpp.
[[nodiscard]] Result<Prepared> steeped(const larder::Composition& drink,
                                       const larder::Composition& what,
                                       double dose);

/// With water, so that a kilogram holds `share` of the drink.
[[nodiscard]] Prepared thinned(const larder::Composition& drink, double share);

/// The ingredient as the preparation leaves it: what was known of the drink, range and all, in the
/// proportion of `after` to `before`; what was only assumed of it likewise. How much free sulphite
/// a simmering pan lets go is a guess with a wide range.
[[nodiscard]] larder::Ingredient remade(const larder::Ingredient& drink,
                                        const larder::Composition& before,
                                        const larder::Composition& after,
                                        bool simmered);

}  // namespace barm::drink

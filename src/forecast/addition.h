#pragma once
// What is kneaded into a dough that stands already.
#include "base/result.h"
#include "forecast/draw.h"
#include "kinetics/blend.h"

namespace barm::forecast {

/// By weight.
struct Addition {
  Mass flour, water, salt, levain, yeast;

  [[nodiscard]] Mass all() const { return flour + water + salt + levain + yeast; }
};

/// As shares of all the flour in the bowl.
struct Shares {
  double levain = 0, yeast = 0, flour = 0;

  [[nodiscard]] bool any() const { return levain + yeast + flour > 0; }
};

/// The addition as a bowl of its own, by weight: flour in the bowl's proportions with plain water
/// for all of its liquid and salt as in the bowl; the bake's levain; fresh yeast.
struct Kneaded {
  formula::Bake bake;
  bool extra = false;  ///< its last line is not one of the bake's
};

[[nodiscard]] Kneaded addition_of(const formula::Bake& bake,
                                  const formula::Bowl& bowl,
                                  const Shares& shares);

[[nodiscard]] Addition weights(const Kneaded& kneaded);

/// The dough once it is kneaded in, at this temperature: half of its bubbles' gas leaves
/// (data/rescue.toml), then all is mixed. Errors: those of formula::in_the_bowl and
/// kinetics::blend.
[[nodiscard]] Result<kinetics::DoughState> knead(const kinetics::DoughState& dough,
                                                 const Draw& draw,
                                                 const Kneaded& kneaded,
                                                 double celsius);

}  // namespace barm::forecast

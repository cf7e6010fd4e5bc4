#pragma once
#include "base/result.h"
#include "kinetics/dough.h"
#include "kinetics/parameter.h"
#include "kinetics/state.h"

namespace barm::kinetics {

/// A kilogram of dough as it stands some time after mixing.
struct DoughState {
  Dough dough;            ///< what it was at mixing
  StateOf<double> state;  ///< what has become of it
  double flour = 0;       ///< [kg] all of it, the levain's included

  [[nodiscard]] double ethanol() const;  ///< [g] brought and made
  [[nodiscard]] double lactate() const;  ///< [mmol] brought and made
  [[nodiscard]] double acetate() const;  ///< [mmol]
};

/// Two doughs kneaded into one: a kilogram of the mixture holds `share` of `b` and the rest of `a`.
/// Whatever a scale could weigh is conserved:
///
///     x = (1 - share) x_a + share x_b        cells, sugars, gas, ethanol, acids, salt, buffers, …
///
/// How awake the cells are is averaged by cells, gluten, hydration and the rise limit by flour; the
/// volume of the water phase loses what ethanol and water lose on mixing; pH is that of the charge
/// balance. With share 0 or 1 it is that dough itself. Range: share 0..1. Errors: those of
/// chemistry::mixed_ph. Checked against: tests/kinetics/blend_test.cpp.
[[nodiscard]] Result<DoughState> blend(const DoughState& a, const DoughState& b, double share);

}  // namespace barm::kinetics

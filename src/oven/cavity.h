#pragma once
// Alcohol vapour in the oven's cavity against the lower limit of burning.
#include <vector>

#include "oven/bake.h"

namespace barm::oven {

using Flow = decltype(litre / second);

/// What the cavity holds of it.
struct Vapour {
  double closed = 0;       ///< share of the gas, if all alcohol were out at once and none went away
  double vented = 0;       ///< the highest share in the vented cavity
  Time vented_at;          ///< when that is
  double limit = 0.033;    ///< lower limit of burning
  double warn_from = 0;    ///< a quarter of it
  int loaves_at_once = 0;  ///< as many as stay below `warn_from`, vented; 0: not even one

  [[nodiscard]] bool warns() const { return vented >= warn_from; }
};

/// The gas that leaves a vented cavity, 10 to 200 L/min in nine of ten ovens by guess; `luck` is a
/// standard normal number.
[[nodiscard]] Flow vent_of(double luck);

/// The share y of alcohol in a vented, well stirred cavity,
///
///     V dy/dt = G_e - (Q + G_e + G_w) y,      G = loaves n R T/P of what leaves a loaf
///
/// over the course of a bake, each stretch between two notes in closed form. Air comes in as fast
/// as it leaves. Source: codata2018, nfpa497. Checked against: tests/oven/cavity_test.cpp.
[[nodiscard]] Vapour vapour_in(const Oven& oven,
                               const std::vector<Minute>& course,
                               Mass ethanol_of_loaf,
                               Flow vent);

/// The highest share alone.
[[nodiscard]] double vented_share(const Oven& oven, const std::vector<Minute>& course, Flow vent);

}  // namespace barm::oven

#pragma once
// What a dough is to heat: how much it takes to warm and how fast it passes it on.
#include "units/quantity.h"
#include "units/temperature.h"

namespace barm::heat {

using Conductivity =
    Quantity<Dimension{.mass = 1, .length = 1, .time = -3, .temperature = -1}>;  ///< [W/(m K)]
using HeatCapacity =
    Quantity<Dimension{.length = 2, .time = -2, .temperature = -1}>;  ///< [J/(kg K)]

/// Mass fractions; whatever they sum to counts as the whole.
struct Makeup {
  double water = 0, protein = 0, fat = 0, carbohydrate = 0, fibre = 0;
  double ash = 0;  ///< salt included
  double ethanol = 0;
};

struct Material {
  Conductivity conductivity;
  Density density;  ///< gas included
  HeatCapacity capacity;

  /// [m2/s] k/(rho cp)
  [[nodiscard]] double diffusivity() const {
    return conductivity.si() / (density.si() * capacity.si());
  }
};

/// A dough of this makeup with a share `gas` of its volume in bubbles.
///
///     cp = sum x_i cp_i     1/rho = sum x_i/rho_i     k_c = sum v_i k_i     rho_eff = rho (1 -
///     gas) k = k_c (2 k_c + k_g - 2 gas (k_c - k_g)) / (2 k_c + k_g + gas (k_c - k_g))
///
/// Range: above freezing to 100 C, gas 0..0.9. Bubbles' vapour carries heat in a hot dough and not
/// in a cool one: not counted. Source: choi_okos1986, ashrae2006. Checked against:
/// tests/heat/material_test.cpp.
[[nodiscard]] Material material(const Makeup& makeup, Temperature temperature, double gas);

}  // namespace barm::heat

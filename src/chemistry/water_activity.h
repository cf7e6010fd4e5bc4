#pragma once
#include "units/fraction.h"
#include "units/quantity.h"

namespace barm::chemistry {

/// What is dissolved, each per kilogram of water.
struct Solutes {
  Molality salt{};          ///< NaCl
  Molality hexose{};        ///< glucose and fructose
  Molality disaccharide{};  ///< sucrose and maltose
  Molality lactose{};
  Molality ethanol{};
  Molality glycerol{};
};

/// Water activity by the Ross product: each solute as if it had all the water for itself.
///
///     a_w = a_salt prod_s X_w exp(-K_s X_s^2),   X_s = m_s / (m_s + 55.5 mol/kg)   (Norrish)
///     a_salt = exp(-2 phi m M_w)                                                   (Pitzer)
///
/// Ethanol counts as ideal (K = 0). Range: salt to 6 mol/kg, dilute ethanol.
/// Source: norrish_polyols, pitzer_parameters, remembered.
/// Checked against: tests/truth/water_activity_test.cpp.
[[nodiscard]] double water_activity(const Solutes& solutes);

/// Osmotic coefficient of NaCl at 25 C by Pitzer's equation, 0..6 mol/kg.
///
///     phi = 1 - A sqrt(m) / (1 + 1.2 sqrt(m)) + m (b0 + b1 exp(-2 sqrt(m))) + m^2 C
///
/// Source: pitzer_parameters. Checked against: tests/truth/water_activity_test.cpp.
[[nodiscard]] double salt_osmotic_coefficient(Molality salt);

}  // namespace barm::chemistry

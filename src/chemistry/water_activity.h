#pragma once
#include "units/quantity.h"
#include "units/fraction.h"

namespace barm::chemistry {

/// What is dissolved, each per kilogram of water.
struct Solutes {
  Molality salt;       ///< NaCl
  Molality hexose;     ///< glucose and fructose
  Molality disaccharide;  ///< sucrose and maltose
  Molality lactose;
  Molality ethanol;
  Molality glycerol;
};

/// Water activity by the Ross product: Norrish for sugars and glycerol, Pitzer for salt, ideal for ethanol.
/// Range: salt to 6 mol/kg. Source: data/chemistry.toml. Checked against: tests/truth/water_activity_test.cpp.
[[nodiscard]] double water_activity(const Solutes& solutes);

/// Osmotic coefficient of NaCl at 25 C by Pitzer's equation, 0..6 mol/kg.
[[nodiscard]] double salt_osmotic_coefficient(Molality salt);

}  // namespace barm::chemistry

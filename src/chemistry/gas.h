#pragma once
#include "units/quantity.h"
#include "units/temperature.h"

namespace barm::chemistry {

/// Solubility of CO2 in water per pressure [mol/(kg Pa)]: 0.0334 mol/(kg atm) exp(2400 (1/T - 1/298.15)).
/// Source: sander2015. Checked against: tests/truth/gas_test.cpp.
[[nodiscard]] double carbon_dioxide_solubility(Temperature temperature);

/// Vapour pressure of pure water, Antoine. Range 0..200 C.
[[nodiscard]] Pressure water_vapour_pressure(Temperature temperature);

/// Vapour pressure of pure ethanol, Antoine. Range 3.4..96.4 C.
[[nodiscard]] Pressure ethanol_vapour_pressure(Temperature temperature);

}  // namespace barm::chemistry

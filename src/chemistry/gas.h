#pragma once
#include "units/quantity.h"
#include "units/temperature.h"

namespace barm::chemistry {

/// Solubility of CO2 in water per pressure [mol/(kg Pa)].
///
///     k(T) = 3.3e-4 mol/(m3 Pa) exp(2400 K (1/T - 1/298.15 K))
///
/// A litre of water is taken as a kilogram; at 25 C 0.0334 mol/(kg atm). Salt lowers it.
/// Range: 0..50 C; not checked here.
/// Source: sander2015. Checked against: tests/truth/gas_test.cpp.
[[nodiscard]] double carbon_dioxide_solubility(Temperature temperature);

/// Vapour pressure of pure water: log10(P/Pa) = A - B / (T + C), Antoine.
/// Range: 0..200 C; not checked here.
/// Source: poling2001. Checked against: tests/truth/vapour_test.cpp.
[[nodiscard]] Pressure water_vapour_pressure(Temperature temperature);

/// Vapour pressure of pure ethanol, the same form. Range: 3.4..96.4 C; not checked here.
/// Source: poling2001. Checked against: tests/truth/vapour_test.cpp.
[[nodiscard]] Pressure ethanol_vapour_pressure(Temperature temperature);

}  // namespace barm::chemistry

#pragma once
#include "base/result.h"
#include "units/fraction.h"
#include "units/quantity.h"
#include "units/temperature.h"

namespace barm::chemistry {

/// Share of ethanol by amount in a mixture of ethanol and water that is `ethanol` by mass.
[[nodiscard]] MoleFraction mole_fraction(MassFraction ethanol);

/// The inverse of mole_fraction().
[[nodiscard]] MassFraction mass_fraction(MoleFraction ethanol);

/// Partial pressure of ethanol over a dilute mixture at proofing temperatures, by Henry's law.
///
///     p = x exp(30.606 - 6045 K / T) Pa
///
/// Range: x to about 0.05 (15 % vol), 0..40 C; not checked here.
/// Source: sander2015. Checked against: tests/truth/vapour_test.cpp.
[[nodiscard]] Pressure ethanol_partial_pressure(MoleFraction ethanol, Temperature temperature);

struct ActivityCoefficients {
  double ethanol = 1;
  double water = 1;
};

/// Activity coefficients of a boiling mixture, by NRTL.
///
///     ln g1 = x2^2 [ t21 (G21 / (x1 + x2 G21))^2 + t12 G12 / (x2 + x1 G12)^2 ],   g2 by 1 <-> 2
///     t = A / (R T),  G = exp(-alpha t),  1 = ethanol, 2 = water
///
/// Fitted at 1 atm: right above 70 C, too high near room temperature, where
/// ethanol_partial_pressure() serves.
/// Source: dechema_vle. Checked against: tests/truth/vapour_test.cpp.
[[nodiscard]] ActivityCoefficients activity_coefficients(MoleFraction ethanol,
                                                         Temperature temperature);

struct BoilingPoint {
  Temperature temperature;
  MoleFraction vapour;  ///< ethanol in the vapour that leaves
};

/// Where a mixture of ethanol and water boils, and what its vapour holds.
///
///     x1 g1 P1(T) + x2 g2 P2(T) = P,   y = x1 g1 P1 / P
///
/// Range: x 0..1, pressure 50..110 kPa. Errors: bad_input outside it.
/// Source: dechema_vle, poling2001. Checked against: tests/truth/vapour_test.cpp.
[[nodiscard]] Result<BoilingPoint> boiling_point(MoleFraction ethanol, Pressure pressure);

/// Share of a closed cavity's gas that so much ethanol makes at 1 atm when all of it has become
/// vapour and nothing was vented: n R T / (P V). An upper bound, to hold against
/// constants::ethanol_in_air.
/// Source: codata2018. Checked against: tests/truth/vapour_test.cpp.
[[nodiscard]] double vapour_share_bound(Mass ethanol, Volume cavity, Temperature temperature);

}  // namespace barm::chemistry

#pragma once
#include "base/result.h"
#include "units/fraction.h"
#include "units/temperature.h"

namespace barm::chemistry {

/// Density of a mixture of ethanol and water.
///
///     rho(p,t) = A1 + sum_k A_k p^(k-1) + sum_k B_k (t-20)^k + sum_i sum_k C_ik p^k (t-20)^i
///
/// Range: p 0..1, t -20..40 C. Errors: bad_input outside it.
/// Source: oiml_r22. Checked against: tests/truth/ethanol_water_test.cpp.
[[nodiscard]] Result<Density> density(MassFraction ethanol, Temperature temperature);

/// Alcoholic strength by volume of a mixture that is `ethanol` by mass: q = p rho(p,20) / rho(1,20).
[[nodiscard]] AlcoholByVolume strength(MassFraction ethanol);

/// The inverse of strength(), to 1e-12. Range 0..1.
[[nodiscard]] MassFraction ethanol_mass_fraction(AlcoholByVolume strength);

/// Grams of ethanol in a litre at 20 C, exact whatever else is dissolved: 789.24 g/L times the strength.
[[nodiscard]] Concentration ethanol_per_volume(AlcoholByVolume strength);

/// Strength that holds so much ethanol per litre at 20 C.
[[nodiscard]] AlcoholByVolume strength_of(Concentration ethanol);

/// Volume that vanishes on mixing so much ethanol and water at 20 C; never negative.
[[nodiscard]] Volume contraction(Mass ethanol, Mass water);

}  // namespace barm::chemistry

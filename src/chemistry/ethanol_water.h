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

/// Alcoholic strength by volume of a mixture that is `ethanol` by mass.
///
///     q = p rho(p,20) / rho(1,20)
///
/// Range: 0..1; outside it a contract is broken.
/// Source: oiml_r22. Checked against: tests/truth/ethanol_water_test.cpp.
[[nodiscard]] AlcoholByVolume strength(MassFraction ethanol);

/// The inverse of strength(), to 1e-12. Range: 0..1; outside it a contract is broken.
/// Checked against: tests/laws/mixing_test.cpp.
[[nodiscard]] MassFraction ethanol_mass_fraction(AlcoholByVolume strength);

/// Mass of ethanol in a volume of drink at 20 C: q rho(1,20), exact whatever else is dissolved.
/// rho(1,20) = 789.24 g/L. Checked against: tests/truth/ethanol_water_test.cpp.
[[nodiscard]] Concentration ethanol_per_volume(AlcoholByVolume strength);

/// Strength that holds so much ethanol per litre at 20 C.
[[nodiscard]] AlcoholByVolume strength_of(Concentration ethanol);

/// Volume that vanishes on mixing so much ethanol and water at 20 C; never negative.
///
///     dV = m_e / rho(1,20) + m_w / rho(0,20) - (m_e + m_w) / rho(p,20),   p = m_e / (m_e + m_w)
///
/// Checked against: tests/laws/mixing_test.cpp.
[[nodiscard]] Volume contraction(Mass ethanol, Mass water);

}  // namespace barm::chemistry

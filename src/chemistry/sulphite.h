#pragma once
#include "units/fraction.h"
#include "units/temperature.h"

namespace barm::chemistry {

/// pK of dissolved SO2 in a drink.
///
///     pK = 1.800 + 0.0197 E + 0.0406 (t-20),   E in % vol
///
/// A fit to the thermodynamic values of the OIV table. Used without the correction for ionic
/// strength, which would lower it by about 0.1: so the molecular share errs on the high side.
/// Range: E 0..15 % vol, t 20..30 C; a straight line beyond, where the table bends.
/// Source: oiv_so2. Checked against: tests/truth/sulphite_test.cpp.
[[nodiscard]] double sulphite_pk(AlcoholByVolume strength, Temperature temperature);

/// Share of free sulphite that is molecular SO2: 1 / (1 + 10^(pH - pK)).
/// Checked against: tests/truth/sulphite_test.cpp.
[[nodiscard]] double molecular_share(Ph ph, AlcoholByVolume strength, Temperature temperature);

/// Share of sorbic acid that is undissociated: 1 / (1 + 10^(pH - 4.76)).
/// Source: remembered. Checked against: tests/chemistry/sulphite_test.cpp.
[[nodiscard]] double undissociated_sorbic_share(Ph ph);

}  // namespace barm::chemistry

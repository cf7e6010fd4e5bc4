#pragma once
#include "units/fraction.h"
#include "units/quantity.h"
#include "units/temperature.h"

namespace barm::chemistry {

/// pK of SO2 . H2O in wine: 1.800 + 0.0197 E + 0.0406 (t-20), E in % vol. Fit to the OIV table, t 20..30 C.
/// Source: oiv_so2. Checked against: tests/truth/sulphite_test.cpp.
[[nodiscard]] double sulphite_pk(AlcoholByVolume strength, Temperature temperature);

/// Share of free sulphite that is molecular SO2: 1 / (1 + 10^(pH - pK)).
[[nodiscard]] double molecular_share(Ph ph, AlcoholByVolume strength, Temperature temperature);

/// Share of sorbic acid that is undissociated: 1 / (1 + 10^(pH - 4.76)).
[[nodiscard]] double undissociated_sorbic_share(Ph ph);

}  // namespace barm::chemistry

#pragma once
// Alcoholometry at 60 F, as the United States keep it: strength is by volume at 15.56 C instead of
// 20 C.
#include "chemistry/ethanol_water.h"
#include "units/units.h"

namespace barm::test {

inline const auto sixty_f = Temperature::from_fahrenheit(60);

inline double density_60_f(double p) {
  return chemistry::density(MassFraction(p), sixty_f).value().si();
}

/// Mass fraction of ethanol at a strength by volume at 60 F; halving the interval, nothing clever.
inline double mass_fraction_60_f(double strength) {
  double low = 0;
  double high = 1;
  while (high - low > 1e-14) {
    const double p = 0.5 * (low + high);
    (p * density_60_f(p) > strength * density_60_f(1) ? high : low) = p;
  }
  return 0.5 * (low + high);
}

/// Parts of water by volume in 100 parts of spirit of that proof, at 60 F.
inline double water_parts(double proof) {
  const double p = mass_fraction_60_f(proof / 200);
  return 100 * density_60_f(p) * (1 - p) / density_60_f(0);
}

/// Density as a balance in air shows it: air of 1.2 kg/m3, weights of 8000 kg/m3.
inline double density_in_air(double density) { return (density - 1.2) / (1 - 1.2 / 8000); }

}  // namespace barm::test

#include "chemistry/ethanol_water.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "base/require.h"
#include "chemistry/internal/increasing_root.h"
#include "generated/tables.h"

namespace barm::chemistry {

namespace {

// The 54 coefficients in the places where Horner's rule wants them: c[i][k] multiplies p^k
// (t-20)^i. Row 0 is A (c[0][k] = A_{k+1}), column 0 is B (c[i][0] = B_i), the rest is C_ik.
constexpr std::size_t rows = 7;
constexpr std::size_t columns = 12;
using Coefficients = std::array<std::array<double, columns>, rows>;

constexpr Coefficients arranged() {
  Coefficients c{};
  for (const auto& row : tables::oiml_r22_coefficients) {
    const auto k = static_cast<std::size_t>(row.k);
    if (row.symbol == "A") c[0][k - 1] = row.value;
    if (row.symbol == "B") c[k][0] = row.value;
    if (row.symbol == "C") c[static_cast<std::size_t>(row.i)][k] = row.value;
  }
  return c;
}

constexpr Coefficients coefficients = arranged();

constexpr double polynomial(const std::array<double, columns>& c, double p) {
  double sum = 0;
  for (std::size_t k = columns; k-- > 0;) sum = sum * p + c[k];
  return sum;
}

constexpr double slope(const std::array<double, columns>& c, double p) {
  double sum = 0;
  for (std::size_t k = columns; k-- > 1;) sum = sum * p + static_cast<double>(k) * c[k];
  return sum;
}

// rho(p,t) [kg/m3], t in degrees Celsius.
double rho(double p, double t) {
  double sum = 0;
  for (std::size_t i = rows; i-- > 0;) sum = sum * (t - 20) + polynomial(coefficients[i], p);
  return sum;
}

// rho(p,20) [kg/m3], on which every strength rests.
constexpr double rho_20(double p) { return polynomial(coefficients[0], p); }

constexpr double ethanol_20 = rho_20(1);
constexpr double water_20 = rho_20(0);

void require_share(double value) {
  require(value >= 0 && value <= 1, "a share of ethanol lies between 0 and 1");
}

}  // namespace

Result<Density> density(MassFraction ethanol, Temperature temperature) {
  const double p = ethanol.value();
  const double t = temperature.celsius();
  if (!(p >= 0 && p <= 1)) {
    return failure(ErrorCode::bad_input, "", "a mass fraction of ethanol lies between 0 and 1");
  }
  // A hair's breadth of rounding in Kelvin must not refuse 40 C itself.
  constexpr double rounding = 1e-9;
  if (!(t >= -20 - rounding && t <= 40 + rounding)) {
    return failure(ErrorCode::bad_input, "", "densities are known from -20 to 40 °C only");
  }
  return Density::from_si(rho(p, t));
}

AlcoholByVolume strength(MassFraction ethanol) {
  const double p = ethanol.value();
  require_share(p);
  return AlcoholByVolume(p * rho_20(p) / ethanol_20);
}

MassFraction ethanol_mass_fraction(AlcoholByVolume strength) {
  const double q = strength.value();
  require_share(q);
  if (q == 0 || q == 1) return MassFraction(q);
  const auto excess = [q](double p) {
    return internal::ValueAndSlope{p * rho_20(p) - q * ethanol_20,
                                   rho_20(p) + p * slope(coefficients[0], p)};
  };
  return MassFraction(internal::increasing_root(excess, 0, 1, 1e-13));
}

Concentration ethanol_per_volume(AlcoholByVolume strength) {
  return Concentration::from_si(strength.value() * ethanol_20);
}

AlcoholByVolume strength_of(Concentration ethanol) {
  return AlcoholByVolume(ethanol.si() / ethanol_20);
}

Volume contraction(Mass ethanol, Mass water) {
  require(ethanol.si() >= 0 && water.si() >= 0, "a mass is not negative");
  const double total = ethanol.si() + water.si();
  if (total == 0) return {};
  const double apart = ethanol.si() / ethanol_20 + water.si() / water_20;
  const double together = total / rho_20(ethanol.si() / total);
  return Volume::from_si(
      std::max(0.0, apart - together));  // a trace of water: rounding of 1e-16 m3
}

}  // namespace barm::chemistry

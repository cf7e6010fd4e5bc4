#include "chemistry/vapour.h"

#include <cmath>
#include <numbers>

#include "chemistry/gas.h"
#include "chemistry/internal/increasing_root.h"
#include "generated/constants.h"
#include "units/units.h"

namespace barm::chemistry {

namespace {

constexpr double square(double x) { return x * x; }

constexpr double ethanol_per_water =
    (constants::molar_mass::ethanol.value / constants::molar_mass::water.value).si();

// ln g of the first component, from its share x and the interaction parameters t12 and t21.
double ln_nrtl(double x, double t12, double t21) {
  const double g12 = std::exp(-constants::nrtl::alpha.value * t12);
  const double g21 = std::exp(-constants::nrtl::alpha.value * t21);
  return square(1 - x) *
         (t21 * square(g21 / (x + (1 - x) * g21)) + t12 * g12 / square((1 - x) + x * g12));
}

// Pressures [Pa] of ethanol and water over a boiling mixture.
struct Pressures {
  double ethanol;
  double water;
};

Pressures pressures(MoleFraction ethanol, Temperature temperature) {
  const auto [g_ethanol, g_water] = activity_coefficients(ethanol, temperature);
  return {ethanol.value() * g_ethanol * ethanol_vapour_pressure(temperature).si(),
          (1 - ethanol.value()) * g_water * water_vapour_pressure(temperature).si()};
}

// d ln P / dT of a pure liquid [1/K] by Antoine's equation.
double antoine_slope(double b, double c, double kelvins) {
  return std::numbers::ln10 * b / square(kelvins + c);
}

}  // namespace

MoleFraction mole_fraction(MassFraction ethanol) {
  const double p = ethanol.value();
  return MoleFraction(p / (p + (1 - p) * ethanol_per_water));
}

MassFraction mass_fraction(MoleFraction ethanol) {
  const double x = ethanol.value();
  return MassFraction(x * ethanol_per_water / (x * ethanol_per_water + (1 - x)));
}

Pressure ethanol_partial_pressure(MoleFraction ethanol, Temperature temperature) {
  namespace henry = constants::henry_ethanol;
  const double ln_henry = henry::a.value - henry::b.value.si() / temperature.kelvin();
  return Pressure::from_si(ethanol.value() * std::exp(ln_henry));
}

ActivityCoefficients activity_coefficients(MoleFraction ethanol, Temperature temperature) {
  const MolarEnergy rt = constants::physics::gas_constant.value * (temperature.kelvin() * kelvin);
  const double t12 = constants::nrtl::ethanol_water.value / rt;
  const double t21 = constants::nrtl::water_ethanol.value / rt;
  const double x = ethanol.value();
  return {std::exp(ln_nrtl(x, t12, t21)), std::exp(ln_nrtl(1 - x, t21, t12))};
}

Result<BoilingPoint> boiling_point(MoleFraction ethanol, Pressure pressure) {
  if (!(ethanol.value() >= 0 && ethanol.value() <= 1)) {
    return failure(ErrorCode::bad_input, "", "a share of ethanol lies between 0 and 1");
  }
  if (!(pressure >= 50e3 * pascal && pressure <= 110e3 * pascal)) {
    return failure(ErrorCode::bad_input, "", "boiling points are known from 50 to 110 kPa only");
  }
  // ln(sum/P) rises nearly in a straight line; the slope of pure water serves for every mixture.
  namespace water = constants::antoine_water;
  const auto ln_excess = [&](double kelvins) {
    const auto p = pressures(ethanol, Temperature::from_kelvin(kelvins));
    return internal::ValueAndSlope{
        std::log((p.ethanol + p.water) / pressure.si()),
        antoine_slope(water::b.value.si(), water::c.value.si(), kelvins)};
  };
  const double kelvins = internal::increasing_root(ln_excess, 323.15, 383.15, 1e-9);
  const auto temperature = Temperature::from_kelvin(kelvins);
  return BoilingPoint{temperature,
                      MoleFraction(pressures(ethanol, temperature).ethanol / pressure.si())};
}

double vapour_share_bound(Mass ethanol, Volume cavity, Temperature temperature) {
  const Amount amount = ethanol / constants::molar_mass::ethanol.value;
  const Energy work =
      amount * constants::physics::gas_constant.value * (temperature.kelvin() * kelvin);
  return work / (atmosphere * cavity);
}

}  // namespace barm::chemistry

#include "oven/internal/steam_table.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/require.h"
#include "chemistry/gas.h"
#include "chemistry/vapour.h"
#include "generated/constants.h"
#include "units/units.h"

namespace barm::oven {

namespace {

constexpr int coldest = -10;
constexpr std::size_t degrees = 141;

std::array<double, degrees> pressures() {
  std::array<double, degrees> out{};
  for (std::size_t i = 0; i < degrees; ++i) {
    out.at(i) = chemistry::water_vapour_pressure(
                    Temperature::from_celsius(coldest + static_cast<double>(i)))
                    .si();
  }
  return out;
}

// Of mixtures to a third of ethanol by mass; every loaf lies far below.
constexpr std::size_t mixtures = 65;
constexpr double strongest = 0.32;

std::array<double, mixtures> volatilities() {
  std::array<double, mixtures> out{};
  for (std::size_t i = 0; i < mixtures; ++i) {
    const double p = std::max(1e-5, strongest * static_cast<double>(i) / (mixtures - 1));
    const auto x = chemistry::mole_fraction(MassFraction(p));
    const auto point = chemistry::boiling_point(x, atmosphere);
    require(point.has_value(), "a mixture has a boiling point");
    const double y = point->vapour.value();
    out.at(i) = y / (1 - y) * (1 - x.value()) / x.value();
  }
  return out;
}

}  // namespace

double water_pressure(double celsius) {
  static const auto table = pressures();
  const double at = std::clamp(celsius - coldest, 0.0, static_cast<double>(degrees) - 1.001);
  const auto row = static_cast<std::size_t>(at);
  const double part = at - static_cast<double>(row);
  return table[row] + part * (table[row + 1] - table[row]);
}

double relative_volatility(double ethanol, double water) {
  static const auto table = volatilities();
  if (ethanol + water <= 0) return table[0];
  const double at = std::min(ethanol / (ethanol + water) / strongest, 1.0) * (mixtures - 1.001);
  const auto row = static_cast<std::size_t>(at);
  const double part = at - static_cast<double>(row);
  return table[row] + part * (table[row + 1] - table[row]);
}

double hot_skin() { return constants::oven_heat::skin.value.si(); }

double stefan_boltzmann() { return constants::oven_heat::stefan_boltzmann.value.si(); }

}  // namespace barm::oven

#include "chemistry/gas.h"

#include <cmath>

#include "generated/constants.h"

namespace barm::chemistry {

namespace {

Pressure antoine(double a,
                 TemperatureDifference b,
                 TemperatureDifference c,
                 Temperature temperature) {
  return Pressure::from_si(std::pow(10.0, a - b.si() / (temperature.kelvin() + c.si())));
}

}  // namespace

double carbon_dioxide_solubility(Temperature temperature) {
  namespace law = constants::carbon_dioxide;
  constexpr double water_density = 1000;  // [kg/m3]
  const double inverse = 1 / temperature.kelvin() - 1 / 298.15;
  return law::solubility.value.si() / water_density * std::exp(law::cooling.value.si() * inverse);
}

Pressure water_vapour_pressure(Temperature temperature) {
  namespace water = constants::antoine_water;
  return antoine(water::a.value, water::b, water::c, temperature);
}

Pressure ethanol_vapour_pressure(Temperature temperature) {
  namespace ethanol = constants::antoine_ethanol;
  return antoine(ethanol::a.value, ethanol::b, ethanol::c, temperature);
}

}  // namespace barm::chemistry

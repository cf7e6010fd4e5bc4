#include "chemistry/water_activity.h"

#include <cmath>

#include "generated/constants.h"
#include "units/units.h"

namespace barm::chemistry {

namespace {

constexpr MolarMass water_molar_mass = constants::molar_mass::water;

double norrish(Molality solute, double k) {
  const double per_water = solute * water_molar_mass;  // moles of solute per mole of water
  const double x = per_water / (1 + per_water);
  return (1 - x) * std::exp(-k * x * x);
}

double salt_water_activity(Molality salt) {
  constexpr double ions = 2;
  return std::exp(-ions * salt_osmotic_coefficient(salt) * (salt * water_molar_mass));
}

}  // namespace

double salt_osmotic_coefficient(Molality salt) {
  namespace pitzer = constants::pitzer_salt;
  const double m = salt.si();
  const double root = std::sqrt(m);
  return 1 - pitzer::debye_hueckel.value * root / (1 + 1.2 * root) +
         m * (pitzer::beta_0.value.si() + pitzer::beta_1.value.si() * std::exp(-2 * root)) +
         m * m * pitzer::c_phi.value.si();
}

double water_activity(const Solutes& solutes) {
  namespace k = constants::norrish;
  constexpr double ideal = 0;
  return salt_water_activity(solutes.salt) * norrish(solutes.hexose, k::hexose.value) *
         norrish(solutes.disaccharide, k::disaccharide.value) *
         norrish(solutes.lactose, k::lactose.value) * norrish(solutes.ethanol, ideal) *
         norrish(solutes.glycerol, k::glycerol.value);
}

}  // namespace barm::chemistry

#include "larder/internal/convert.h"

#include "base/require.h"
#include "chemistry/acids.h"

namespace barm::larder::internal {

namespace {

MolarMass molar_mass(Property property) {
  using chemistry::Acid;
  switch (property) {
    case Property::lactic_acid:
      return chemistry::molar_mass(Acid::lactic);
    case Property::acetic_acid:
      return chemistry::molar_mass(Acid::acetic);
    case Property::tartaric_acid:
      return chemistry::molar_mass(Acid::tartaric);
    case Property::malic_acid:
      return chemistry::molar_mass(Acid::malic);
    case Property::citric_acid:
      return chemistry::molar_mass(Acid::citric);
    case Property::succinic_acid:
      return chemistry::molar_mass(Acid::succinic);
    case Property::gluconic_acid:
      return chemistry::molar_mass(Acid::gluconic);
    default:
      require(false, "only acids are stated in moles");
      return {};
  }
}

}  // namespace

double in_si(Property property, std::string_view unit, double value, Density density) {
  const double rho = density.si();
  if (unit == "g/100g") return value / 100;
  if (unit == "g/kg") return value / 1e3;
  if (unit == "mg/kg") return value / 1e6;
  if (unit == "g/L") return value / rho;
  if (unit == "mg/L") return value / 1e3 / rho;
  if (unit == "mmol/kg") return value / 1e3 * molar_mass(property).si();
  if (unit == "mmol/L") return value / rho * molar_mass(property).si();
  if (unit == "mmol/(kg ph)") return value / 1e3;
  if (unit == "mmol/(L ph)") return value / rho;
  if (unit == "%vol") return value / 100;
  if (unit == "g/mL") return value * 1e3;
  require(unit == "ph" || unit == "one" || unit == "log10 CFU/g", "a unit of data/larder/");
  return value;
}

}  // namespace barm::larder::internal

#include "chemistry/gas.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "generated/constants.h"
#include "support/csv.h"
#include "support/validation.h"
#include "units/units.h"

namespace barm::chemistry {

namespace {

using test::record;

double per_litre_atm(double celsius) {
  return carbon_dioxide_solubility(Temperature::from_celsius(celsius)) * atmosphere.si();
}

double gram_per_litre_bar(double celsius) {
  return carbon_dioxide_solubility(Temperature::from_celsius(celsius)) * 1e5 *
         constants::molar_mass::carbon_dioxide.value.in(gram / mole);
}

// Sander 2015, Atmos. Chem. Phys. 15, 4399: 3.3e-4 mol/(m3 Pa) at 25 C, two digits as printed.
TEST(CarbonDioxide, SolubilityAt25C) {
  const double ours = 1000 * carbon_dioxide_solubility(Temperature::from_celsius(25));
  EXPECT_NEAR(ours, 3.3e-4, 1e-12);
  record("gas",
         "CO₂ in water at 25 °C",
         "Sander 2015",
         "3.3e-4",
         ours,
         "mol/(m³ Pa)",
         std::abs(ours - 3.3e-4) <= 1e-12);
}

// The same law worked out by hand, to the digits of that table.
TEST(CarbonDioxide, SolubilityAtOtherTemperatures) {
  double worst = 0;
  for (const auto& row : test::read_csv("co2_solubility.csv")) {
    const double celsius = std::stod(row.at("temperature_C"));
    const double theirs = std::stod(row.at("mol_per_litre_atm"));
    EXPECT_NEAR(per_litre_atm(celsius), theirs, 0.000051) << celsius << " C";
    worst = std::max(worst, std::abs(per_litre_atm(celsius) - theirs));
  }
  record("gas",
         "CO₂ in water, 4–35 °C: largest deviation",
         "Sander 2015, worked out by hand",
         "0.00005 (rounding)",
         worst,
         "mol/(L atm)",
         worst <= 0.000051);
}

// Measured in drinks: champagne at 10 C 2.1 g/(L bar), lager at 6 C 2.4 (PMC8047704, table 1).
// Alcohol and extract take up to a tenth off the water value, so ours must lie above and no
// further.
TEST(CarbonDioxide, DrinksDissolveAlmostAsMuchAsWater) {
  const double champagne = 2.1 / gram_per_litre_bar(10);
  const double lager = 2.4 / gram_per_litre_bar(6);
  for (const double share : {champagne, lager}) {
    EXPECT_LE(share, 1.0);
    EXPECT_GE(share, 0.9);
  }
  record("gas",
         "CO₂ in champagne, 10 °C, against our water",
         "PMC8047704, table 1",
         "2.1",
         gram_per_litre_bar(10),
         "g/(L bar)",
         champagne <= 1 && champagne >= 0.9);
  record("gas",
         "CO₂ in lager, 6 °C, against our water",
         "PMC8047704, table 1",
         "2.4",
         gram_per_litre_bar(6),
         "g/(L bar)",
         lager <= 1 && lager >= 0.9);
}

}  // namespace

}  // namespace barm::chemistry

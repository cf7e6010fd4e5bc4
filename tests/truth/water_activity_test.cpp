#include "chemistry/water_activity.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "generated/constants.h"
#include "support/csv.h"
#include "support/molal.h"
#include "support/validation.h"
#include "units/units.h"

namespace barm::chemistry {

namespace {

using test::record;

using barm::test::molal;

// Robinson & Stokes (values from memory). Pitzer's three parameters reproduce them to about 0.001,
// and to 0.003 at the end of their range.
TEST(SodiumChloride, OsmoticCoefficient) {
  double worst = 0;
  for (const auto& row : test::read_csv("nacl_osmotic.csv")) {
    const double m = std::stod(row.at("molality"));
    const double off =
        salt_osmotic_coefficient(molal(m)) - std::stod(row.at("osmotic_coefficient"));
    EXPECT_LE(std::abs(off), m < 6 ? 0.0012 : 0.003) << m << " mol/kg";
    worst = std::max(worst, std::abs(off));
  }
  record("water activity",
         "osmotic coefficient of NaCl, 0.1–6 mol/kg: largest deviation",
         "Robinson & Stokes (remembered)",
         "0.003 (error of Pitzer's fit)",
         worst,
         "",
         worst <= 0.003);
}

// Saturated brine, 6.15 mol/kg at 25 C, stands at 0.753 (remembered); used to calibrate instruments
// to 0.003.
TEST(SodiumChloride, SaturatedBrine) {
  const double ours = water_activity({.salt = molal(6.15)});
  EXPECT_NEAR(ours, 0.753, 0.003);
  record("water activity",
         "saturated NaCl, 25 °C",
         "calibration standard (remembered)",
         "0.753",
         ours,
         "",
         std::abs(ours - 0.753) <= 0.003);
}

// Sucrose saturated at 25 C, 67.5 % mass, stands at 0.85 (remembered, to 0.01).
TEST(Sucrose, SaturatedSyrup) {
  const double m = 675.0 / 325.0 * 1000 / constants::molar_mass::disaccharide.value.in(gram / mole);
  const double ours = water_activity({.disaccharide = molal(m)});
  EXPECT_NEAR(ours, 0.85, 0.01);
  record("water activity",
         "saturated sucrose, 25 °C",
         "handbook value (remembered)",
         "0.85",
         ours,
         "",
         std::abs(ours - 0.85) <= 0.01);
}

}  // namespace

}  // namespace barm::chemistry

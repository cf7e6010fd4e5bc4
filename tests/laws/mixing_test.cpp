// Mixing ethanol and water: mass adds, volume shrinks, and the two ways of stating a strength are
// one.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "chemistry/ethanol_water.h"
#include "chemistry/vapour.h"
#include "units/units.h"

namespace barm::chemistry {

namespace {

constexpr int steps = 1000;

double share(int i) { return static_cast<double>(i) / steps; }

Density density_at(double p, double celsius) {
  return density(MassFraction(p), Temperature::from_celsius(celsius)).value();
}

TEST(Contraction, IsNeverNegative) {
  for (int i = 0; i <= steps; ++i) {
    const double p = share(i);
    EXPECT_GE(contraction(p * kilogram, (1 - p) * kilogram).si(), 0) << p;
  }
}

TEST(Contraction, IsNotNegativeForTracesEither) {
  for (double trace = 1e-18; trace < 1e-3; trace *= 1.7) {
    EXPECT_GE(contraction(trace * kilogram, 1.0 * kilogram).si(), 0) << trace;
    EXPECT_GE(contraction(1.0 * kilogram, trace * kilogram).si(), 0) << trace;
  }
}

// The same by volumes of the parts and of the whole, without help from contraction().
TEST(Contraction, VolumesOfThePartsAreNeverLessThanTheWhole) {
  for (int i = 0; i <= steps; ++i) {
    const double p = share(i);
    const double apart = p / density_at(1, 20).si() + (1 - p) / density_at(0, 20).si();
    const double together = 1 / density_at(p, 20).si();
    EXPECT_GE(apart, together * (1 - 1e-15)) << p;
    EXPECT_NEAR(contraction(p * kilogram, (1 - p) * kilogram).si(), apart - together, 1e-15) << p;
  }
}

TEST(Contraction, OfEitherAloneIsZero) {
  EXPECT_EQ(contraction(1.0 * kilogram, Mass{}).si(), 0);
  EXPECT_EQ(contraction(Mass{}, 1.0 * kilogram).si(), 0);
}

TEST(Contraction, GrowsWithTheAmount) {
  const auto once = contraction(0.3 * kilogram, 0.7 * kilogram);
  const auto tenfold = contraction(3.0 * kilogram, 7.0 * kilogram);
  EXPECT_NEAR(tenfold / once, 10, 1e-9);
}

// Volume of the mixture times its density is the mass that went in.
TEST(Mixing, ConservesMass) {
  for (int i = 0; i <= steps; ++i) {
    const Mass ethanol = share(i) * kilogram;
    const Mass water = 1.0 * kilogram - ethanol;
    const Volume volume =
        ethanol / density_at(1, 20) + water / density_at(0, 20) - contraction(ethanol, water);
    EXPECT_NEAR((volume * density_at(share(i), 20)).in(kilogram), 1, 1e-12) << share(i);
  }
}

TEST(Strength, AndMassFractionAreInverse) {
  for (int i = 0; i <= steps; ++i) {
    const double x = share(i);
    EXPECT_NEAR(strength(ethanol_mass_fraction(AlcoholByVolume(x))).value(), x, 1e-12);
    EXPECT_NEAR(ethanol_mass_fraction(strength(MassFraction(x))).value(), x, 1e-12);
  }
  EXPECT_NEAR(ethanol_mass_fraction(strength(MassFraction(1e-9))).value(), 1e-9, 1e-12);
}

TEST(Strength, RisesWithTheMassFraction) {
  for (int i = 1; i <= steps; ++i) {
    EXPECT_GT(strength(MassFraction(share(i))), strength(MassFraction(share(i - 1))));
  }
}

TEST(Strength, IsNeverLessThanTheMassFraction) {
  for (int i = 0; i <= steps; ++i) EXPECT_GE(strength(MassFraction(share(i))).value(), share(i));
}

TEST(Density, FallsWithWarmthAboveTenDegrees) {
  for (int i = 0; i <= 100; ++i) {
    const double p = i / 100.0;
    for (double t = 10.5; t <= 40; t += 0.5) {
      EXPECT_LT(density_at(p, t), density_at(p, t - 0.5)) << p << " at " << t;
    }
  }
}

TEST(MoleFractions, AndMassFractionsAreInverse) {
  for (int i = 0; i <= steps; ++i) {
    EXPECT_NEAR(mass_fraction(mole_fraction(MassFraction(share(i)))).value(), share(i), 1e-14);
  }
}

// Gibbs and Duhem: x1 dln g1/dx1 + x2 dln g2/dx1 = 0 at constant temperature and pressure.
TEST(ActivityCoefficients, AgreeWithOneAnother) {
  const auto hot = Temperature::from_celsius(80);
  const double h = 1e-5;
  for (double x = 0.02; x < 1; x += 0.02) {
    const auto below = activity_coefficients(MoleFraction(x - h), hot);
    const auto above = activity_coefficients(MoleFraction(x + h), hot);
    const double ethanol = std::log(above.ethanol / below.ethanol) / (2 * h);
    const double water = std::log(above.water / below.water) / (2 * h);
    EXPECT_NEAR(x * ethanol + (1 - x) * water, 0, 1e-7) << x;
  }
}

}  // namespace

}  // namespace barm::chemistry

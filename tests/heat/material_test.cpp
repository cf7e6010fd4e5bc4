// Thermal properties of a dough, and of what it is made of.
#include "heat/material.h"

#include <gtest/gtest.h>

#include "heat/celsius.h"
#include "heat/shape.h"
#include "units/units.h"

namespace barm::heat {

namespace {

using test::celsius;

// Liquid water at 20 C: 4.182 kJ/(kg K), 998.2 kg/m3, 0.598 W/(m K) (IAPWS; remembered). The
// polynomials are given to about one per cent.
TEST(Material, WaterIsWater) {
  const Material water = material({.water = 1}, celsius(20), 0);
  EXPECT_NEAR(water.capacity.si(), 4182, 42);
  EXPECT_NEAR(water.density.si(), 998.2, 3);
  EXPECT_NEAR(water.conductivity.si(), 0.598, 0.008);
}

// A dough of 70 parts of water on flour of 14 % water, 12 % protein, 1.5 % fat, 69 % carbohydrate,
// 3 % fibre, 0.5 % ash, and 2 % salt: worked out by hand from the same rules.
Makeup seventy_percent() {
  const double all = 1 + 0.70 + 0.02;
  return {.water = (0.14 + 0.70) / all,
          .protein = 0.12 / all,
          .fat = 0.015 / all,
          .carbohydrate = 0.69 / all,
          .fibre = 0.03 / all,
          .ash = (0.005 + 0.02) / all};
}

TEST(Material, DoughAsWorkedOutByHand) {
  const Material warm = material(seventy_percent(), celsius(25), 0);
  EXPECT_NEAR(warm.conductivity.si(), 0.456, 0.001);
  EXPECT_NEAR(warm.density.si(), 1212, 1);
  EXPECT_NEAR(warm.capacity.si(), 2889, 3);
  EXPECT_NEAR(warm.diffusivity(), 1.30e-7, 0.01e-7);
  const Material cold = material(seventy_percent(), celsius(5), 0);
  EXPECT_NEAR(cold.conductivity.si(), 0.428, 0.001);
  EXPECT_NEAR(material(seventy_percent(), celsius(25), 0.5).conductivity.si(), 0.201, 0.001);
  EXPECT_NEAR(material(seventy_percent(), celsius(25), 0.75).conductivity.si(), 0.106, 0.001);
}

TEST(Material, BubblesSlowTheHeatAndLeaveTheRest) {
  const Material dense = material(seventy_percent(), celsius(20), 0);
  const Material light = material(seventy_percent(), celsius(20), 0.5);
  EXPECT_EQ(light.capacity.si(), dense.capacity.si());
  EXPECT_NEAR(light.density.si(), dense.density.si() / 2, 1e-9);
  EXPECT_NEAR(light.diffusivity() / dense.diffusivity(), 0.88, 0.03);
}

TEST(Shape, VolumeOverSurfaceIsRight) {
  const Shape ball = sphere(1.0 * litre);
  EXPECT_NEAR(ball.volume_over_surface().in(millimetre), 62.035 / 3, 1e-3);
  // a cylinder of 10 cm by 20 cm: V/A = d h / (4 h + 2 d) = 20 mm
  const Volume volume = height_in(1.0 * litre, 100.0 * millimetre).si() > 0
                            ? Volume::from_si(3.14159265358979 / 4 * 0.1 * 0.1 * 0.2)
                            : Volume{};
  const Shape tall = standing_cylinder(volume, 100.0 * millimetre);
  EXPECT_NEAR(tall.volume_over_surface().in(millimetre), 20, 1e-9);
  EXPECT_NEAR(tall.radius.in(millimetre), 50, 1e-9);
  EXPECT_NEAR(tall.exponent, 1.5, 1e-9);
}

TEST(Shape, AFlatTubIsNearlyASlab) {
  const Shape flat = standing_cylinder(10.0 * litre, 1.0 * metre);
  EXPECT_NEAR(
      flat.radius.in(millimetre), height_in(10.0 * litre, 1.0 * metre).in(millimetre) / 2, 1e-9);
  EXPECT_LT(flat.exponent, 0.05);
}

// 22 cm across and 10 cm high: 2.53 L, and as a cylinder to heat.
TEST(Shape, ALoafLiesBetween) {
  const Volume volume = Volume::from_si(4.0 / 3 * 3.14159265358979 * 0.11 * 0.11 * 0.05);
  EXPECT_NEAR(volume.in(litre), 2.534, 0.001);
  const Shape round = loaf(volume, 10.0 / 22);
  EXPECT_NEAR(round.radius.in(millimetre), 50, 1e-6);
  EXPECT_NEAR(round.exponent, 1.0, 0.03);
  EXPECT_NEAR(loaf(volume, 1).exponent, 2, 1e-6);
}

}  // namespace

}  // namespace barm::heat

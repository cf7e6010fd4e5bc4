#include "oven/bread.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "heat/shape.h"
#include "units/units.h"

namespace barm::oven {

namespace {

heat::Shape shape(double exponent, double radius) { return {exponent, Length::from_si(radius)}; }

Around hot(double celsius) {
  Around around;
  around.air = around.walls = around.stone = celsius;
  around.convection = 10;
  return around;
}

// A steady h and no radiation, no drying: what the series has.
Around lukewarm(double celsius, double h) {
  Around around = hot(celsius);
  around.convection = h;
  around.emissivity = 0;
  return around;
}

Passing plain(double k) {
  Passing passing;
  passing.cold = k;
  passing.gain = 0;
  passing.crust = k;
  return passing;
}

// Below the boil it is conduction with constant properties. Slab, Bi 1: theta at the middle and the
// surface after Fo 0.2 and 1 by the series, tests/truth/data/transient_conduction_series.csv has
// sphere Bi 1 Fo 0.2: 0.772312 and 0.495912.
TEST(Bread, BelowTheBoilFollowsTheSeries) {
  constexpr double radius = 0.05;
  constexpr double k = 0.3;
  Bread bread(shape(2, radius), 200, 0.9, 0, 20, plain(k), {160, 1.0});
  const double capacity = 200 * (1700 + 0.9 * 4190);
  const double alpha = k / capacity;
  const double end = 0.2 * radius * radius / alpha;
  constexpr int steps = 4000;
  for (int i = 0; i < steps; ++i) bread.step(end / steps, lukewarm(60, k / radius));
  const auto theta = [](double t) { return (t - 60) / (20 - 60); };
  EXPECT_NEAR(theta(bread.core()), 0.772312, 3e-4);
  EXPECT_NEAR(theta(bread.surface()), 0.495912, 3e-4);
}

// The front of Neumann's problem: a slab at the boil, its surface held at T_s: depth 2 l sqrt(a t),
// sqrt(pi) l exp(l^2) erf(l) = c (T_s - T_b)/(L (w - w_c)).
TEST(Bread, TheFrontGoesAsNeumannSays) {
  Passing passing;
  passing.cold = 0.15;  // an interior at the boil, whose shells pass heat on alike, dry or wet
  passing.gain = 0;
  passing.crust = 0.15;
  constexpr double water = 0.9;
  constexpr double density = 200;
  Bread bread(shape(0, 0.05), density, water, 0, 99.999, passing, {400, 1.0});
  const double capacity = 1700 + 0.03 * 4190;
  const double alpha = passing.crust / (density * capacity);
  const double stefan = capacity * (180 - 101) / (2.257e6 * (water - 0.03));
  double low = 0;
  double high = 2;
  for (int i = 0; i < 100; ++i) {
    const double l = 0.5 * (low + high);
    (std::sqrt(std::numbers::pi) * l * std::exp(l * l) * std::erf(l) < stefan ? low : high) = l;
  }
  for (int i = 0; i < 6000; ++i) bread.step(0.3, lukewarm(180, 1e6));
  const double front = 2 * low * std::sqrt(alpha * 1800);
  // Water that left, as a depth: sharp where the crust's own count of half-dry layers is not.
  const double gone = (water - bread.water()) / (water - 0.03) * 0.05;
  EXPECT_NEAR(gone / front, 1, 0.01);
  EXPECT_NEAR(bread.crust() / front, 1, 0.05);
}

TEST(Bread, KeepsItsBooksToRounding) {
  Passing passing;
  passing.pump = 1e-3;
  Bread bread(shape(1, 0.05), 180, 0.9, 0.02, 25, passing);
  Around around = hot(230);
  around.vapour = 20000;
  const double start_heat = bread.heat();
  const double start_water = bread.water();
  const double start_ethanol = bread.ethanol();
  double heat = 0;
  double ethanol = 0;
  double skin = 0;
  for (int i = 0; i < 400; ++i) {
    around.steam = i < 20 ? 400 : 0;
    around.drying = i < 20 ? 0 : 6.5e-8;
    const Through through = bread.step(5, around);
    heat += through.heat + through.with_water;
    ethanol += through.ethanol;
    skin += through.water;
    ASSERT_LT(through.rounds, 40);
  }
  const double gained = (bread.heat() - start_heat) * bread.dry();
  EXPECT_NEAR(gained / heat, 1, 1e-6);
  EXPECT_NEAR(ethanol, (start_ethanol - bread.ethanol()) * bread.dry(), 1e-9);
  EXPECT_LT(bread.water(), start_water);
  EXPECT_LT(bread.ethanol(), 0.5 * start_ethanol);
  EXPECT_LT(bread.ethanol_in_crust(), 0.01 * bread.ethanol());
}

double core_after(int layers, double step) {
  Bread bread(shape(1, 0.05), 180, 0.9, 0, 25, Passing{}, {layers, 1.0});
  for (double now = 0; now < 1199.9; now += step) bread.step(step, lukewarm(90, 12));
  return bread.core();
}

// Without boiling the layers are of second order, the steps of first.
TEST(Bread, HalvedLayersAndStepsDivideTheError) {
  const double coarse = core_after(10, 1) - core_after(20, 1);
  const double fine = core_after(20, 1) - core_after(40, 1);
  EXPECT_NEAR(std::log2(coarse / fine), 2, 0.3);
  const double slow = core_after(20, 40) - core_after(20, 20);
  const double fast = core_after(20, 20) - core_after(20, 10);
  EXPECT_NEAR(std::log2(slow / fast), 1, 0.2);
}

}  // namespace

}  // namespace barm::oven

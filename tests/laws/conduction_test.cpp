// What holds of conduction whatever the numbers.
#include "heat/conduction.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "numerics/random.h"

namespace barm::heat {

namespace {

Body some_body(numerics::Random& random) {
  const double gas = 0.6 * random.uniform();
  const Makeup makeup{.water = 0.3 + 0.4 * random.uniform(),
                      .protein = 0.06,
                      .fat = 0.1 * random.uniform(),
                      .carbohydrate = 0.4,
                      .fibre = 0.02,
                      .ash = 0.02,
                      .ethanol = 0.05 * random.uniform()};
  return {material(makeup, Temperature::from_celsius(20), gas),
          {2 * random.uniform(), (0.01 + 0.2 * random.uniform()) * metre},
          2 + 30 * random.uniform()};
}

std::vector<Warming> some_warming(numerics::Random& random) {
  std::vector<Warming> warming;
  for (double t = 0; t < 20; t += 1 + random.uniform())
    warming.push_back({t, 0.5 * random.uniform()});
  return warming;
}

// cp (change of the mean) = through the surface + made by fermentation, to rounding.
TEST(Conduction, LosesNoHeat) {
  numerics::Random random(3, 1);
  for (int i = 0; i < 200; ++i) {
    const Body body = some_body(random);
    Place place{.settles = Temperature::from_celsius(30 * random.uniform())};
    place.opens = Temperature::from_celsius(30 * random.uniform());
    place.halves = random.uniform() * hour;
    const Warmed warmed =
        warm(body, even(Temperature::from_celsius(24)), place, some_warming(random), 15.0 * hour);
    const double stored =
        body.material.capacity.si() * (warmed.moments.back().mean - warmed.moments.front().mean);
    EXPECT_NEAR(stored, warmed.through_surface + warmed.made, 1e-6) << i;
  }
}

// The same balance with the flux through the surface worked out from what is seen from outside: the
// surface's and the air's temperature, by Simpson's rule.
TEST(Conduction, TheSurfaceTellsWhatWentThroughIt) {
  numerics::Random random(3, 2);
  for (int i = 0; i < 20; ++i) {
    const Body body = some_body(random);
    const Place place{.settles = Temperature::from_celsius(4)};
    const Method method{64, 0.01 * hour};
    const Warmed start =
        warm(body, even(Temperature::from_celsius(24)), place, {}, 1.0 * hour, method);
    const Warmed warmed = warm(body, start.end, place, {}, 6.0 * hour, method);
    const double area_per_mass =
        (body.shape.exponent + 1) / (body.material.density.si() * body.shape.radius.si());
    double sum = 0;
    for (std::size_t k = 0; k < warmed.moments.size(); ++k) {
      const double weight = k == 0 || k + 1 == warmed.moments.size() ? 1 : (k % 2 == 1 ? 4 : 2);
      sum += weight * (4 - warmed.moments[k].surface);
    }
    const double seen = body.transfer * area_per_mass * sum * method.step.si() / 3;
    EXPECT_NEAR(seen, warmed.through_surface, 1e-3 * std::abs(warmed.through_surface)) << i;
  }
}

TEST(Conduction, NeverLeavesTheRangeOfStartAndPlace) {
  numerics::Random random(3, 3);
  for (int i = 0; i < 200; ++i) {
    const Body body = some_body(random);
    const Warmed warmed = warm(body,
                               even(Temperature::from_celsius(24)),
                               {.settles = Temperature::from_celsius(4)},
                               {},
                               30.0 * hour,
                               {16, 0.1 * hour});
    for (const WarmthAt& moment : warmed.moments) {
      EXPECT_LE(moment.middle, 24 + 1e-6);
      EXPECT_GE(moment.surface, 4 - 1e-6);
      EXPECT_GE(moment.middle, moment.surface - 1e-6);
    }
  }
}

// Steps of ten days: they overshoot by at most a fifth of what they leap over, the least value of
// the method's stability function, and die away.
TEST(Conduction, IsStableForAnyStep) {
  numerics::Random random(3, 4);
  for (int i = 0; i < 50; ++i) {
    const Warmed warmed = warm(some_body(random),
                               even(Temperature::from_celsius(24)),
                               {.settles = Temperature::from_celsius(4)},
                               {},
                               2400.0 * hour,
                               {32, 240.0 * hour});
    EXPECT_NEAR(warmed.moments.back().middle, 4, 0.01) << i;
    for (const WarmthAt& moment : warmed.moments) {
      EXPECT_LT(moment.mean, 24 + 1e-6);
      EXPECT_GT(moment.mean, 4 - 0.21 * 20);
    }
  }
}

// A thin body follows Newton's law of cooling: tau = rho cp V/(h A).
TEST(Conduction, IsNewtonsLawWhenTheBodyIsSmall) {
  const Material dough{
      Conductivity::from_si(50), Density::from_si(1000), HeatCapacity::from_si(3000)};
  const Body small{dough, {2, 0.01 * metre}, 10};
  const double tau = 1000 * 3000 * small.shape.volume_over_surface().si() / 10;
  const Warmed warmed = warm(small,
                             even(Temperature::from_celsius(24)),
                             {.settles = Temperature::from_celsius(4)},
                             {},
                             0.5 * hour,
                             {16, 0.005 * hour});
  for (const WarmthAt& moment : warmed.moments) {
    EXPECT_NEAR(moment.mean, 4 + 20 * std::exp(-moment.hours * 3600 / tau), 0.01) << moment.hours;
  }
}

// q = h A/m (T - T_place) in the end.
TEST(Conduction, FermentationHoldsADoughAboveItsRoom) {
  const Body tub{material({.water = 0.48, .protein = 0.07, .carbohydrate = 0.43, .ash = 0.02},
                          Temperature::from_celsius(24),
                          0.3),
                 standing_cylinder(6.0 * litre, 0.25 * metre),
                 6};
  const double heat = 0.2;  // W/kg
  const Warmed warmed = warm(tub,
                             even(Temperature::from_celsius(24)),
                             {.settles = Temperature::from_celsius(24)},
                             {{0, heat}},
                             200.0 * hour);
  const double above_room_outside =
      heat * tub.material.density.si() * tub.shape.volume_over_surface().si() / tub.transfer;
  EXPECT_NEAR(warmed.moments.back().surface, 24 + above_room_outside, 1e-3);
  EXPECT_GT(warmed.moments.back().middle, warmed.moments.back().surface + 0.3);
}

}  // namespace

}  // namespace barm::heat

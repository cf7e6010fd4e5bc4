// The bulk and its sample at their own temperatures.
#include "forecast/warmth.h"

#include <gtest/gtest.h>

#include "forecast/ensemble.h"
#include "formula/read.h"
#include "support/matchers.h"

namespace barm::forecast {

namespace {

constexpr const char* bowl = R"(flour = "3 kg"
[bowl]
"white bread flour" = "100 %"
water = "70 %"
"stiff ripe levain" = "20 %"
salt = "2 %"
)";

formula::Bake bake_in_stages(const std::string& stages) {
  const auto bake = formula::parse_bake(bowl + stages, "w.toml");
  EXPECT_THAT(bake, test::Holds());
  return *bake;
}

Warmth warmth_of(const formula::Bake& bake) {
  const auto middle = draw(bake, 1, -1);
  const auto warmth = Warmth::of(bake, *middle, proving_of(bake, {}), Branches::both);
  EXPECT_THAT(warmth, test::Holds());
  return *warmth;
}

constexpr const char* kept_at_20 = "[[stage]]\ndo = \"bulk\"\ntemperature = \"20 C\"\n";
constexpr const char* in_a_tub = R"([[stage]]
do = "mix"
temperature = "26 C"
[[stage]]
do = "bulk"
temperature = "20 C"
vessel = "tub"
)";

TEST(Warmth, ABulkIsKeptAtItsTemperatureUnlessTheBakeSaysMore) {
  EXPECT_FALSE(warmth_of(bake_in_stages(kept_at_20)).follows());
  EXPECT_TRUE(warmth_of(bake_in_stages(kept_at_20)).bulk().empty());
  EXPECT_TRUE(warmth_of(bake_in_stages(in_a_tub)).follows());
}

TEST(Warmth, ATubOfDoughFollowsItsRoomOverHours) {
  const heat::Track bulk = warmth_of(bake_in_stages(in_a_tub)).bulk();
  EXPECT_NEAR(bulk.celsius_at(0), 26, 0.3);
  EXPECT_GT(bulk.celsius_at(3), 22.5);
  EXPECT_LT(bulk.celsius_at(60), 21.5);
  EXPECT_GT(bulk.celsius_at(10), 20.2);  // its own heat
}

TEST(Warmth, TheSampleIsThereFirst) {
  const Warmth warmth = warmth_of(bake_in_stages(in_a_tub));
  const heat::Track bulk = warmth.bulk();
  const heat::Track sample = warmth.sample(formula::Jar{});
  EXPECT_NEAR(sample.celsius_at(0), bulk.celsius_at(0), 0.5);
  EXPECT_LT(sample.celsius_at(3), bulk.celsius_at(3) - 1.5);
  EXPECT_LT(sample.celsius_at(3), 21.5);
}

TEST(Warmth, AJarInAWarmerPlaceIsWarmer) {
  formula::Jar jar;
  jar.temperature = Temperature::from_celsius(30);
  const Warmth warmth = warmth_of(bake_in_stages(kept_at_20));
  EXPECT_GT(warmth.sample(jar).celsius_at(4), 28);
  EXPECT_NEAR(warmth.sample(formula::Jar{}).celsius_at(4), 20, 0.6);
}

TEST(Warmth, OfManyDoughsIsThatOfEach) {
  const Warmth warmth = warmth_of(bake_in_stages(in_a_tub));
  const BulksByLuck bulks(warmth);
  for (const double luck : {-6.0, -4.7, -3.1, -1.5, -0.4, 0.0, 0.6, 1.9, 3.3, 4.9, 5.0, 7.5}) {
    const heat::Track one = warmth.bulk(luck);
    for (const double hours : {0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 40.0})
      EXPECT_NEAR(bulks(luck).mean_celsius(hours), one.mean_celsius(hours), 0.01) << luck;
  }
}

TEST(Warmth, FasterTransferMeansColderSooner) {
  const Warmth warmth = warmth_of(bake_in_stages(in_a_tub));
  EXPECT_LT(warmth.bulk(1.5).celsius_at(3), warmth.bulk(-1.5).celsius_at(3) - 0.5);
}

TEST(Warmth, ColdDoughIsReadyLater) {
  Options options;
  options.draws = 40;
  options.curves = false;
  const auto warm = foresee(bake_in_stages(in_a_tub), options);
  const auto cool = foresee(bake_in_stages(kept_at_20), options);
  ASSERT_TRUE(warm && cool && warm->ready.p50 && cool->ready.p50);
  EXPECT_LT(warm->ready.p50->in(hour), cool->ready.p50->in(hour)-0.5);
}

// The heat given off in the run and the hexose turned over agree: 90 kJ a mole.
TEST(Warmth, FermentationHeatIsWhatTheSugarGives) {
  const formula::Bake bake = bake_in_stages(kept_at_20);
  const auto middle = draw(bake, 1, -1);
  Proving proving = proving_of(bake, {});
  const auto course = run(middle->dough, middle->parameters, proving);
  ASSERT_TRUE(course);
  const auto warming = warming_of(*course);
  double joules = 0;
  for (const heat::Warming& w : warming) joules += w.per_mass * 0.25 * 3600;
  EXPECT_NEAR(joules, 90 * course->curve.back().fermented, 1e-6 * joules);
  EXPECT_GT(joules, 2000);  // J/kg: more than half a kelvin
}

}  // namespace

}  // namespace barm::forecast

#include "forecast/journey.h"

#include <gtest/gtest.h>

#include "forecast/ensemble.h"
#include "formula/read.h"
#include "support/matchers.h"

namespace barm::forecast {

namespace {

constexpr const char* staged = R"(name = "staged"
flour = "1 kg"
[bowl]
"white bread flour" = "100 %"
water = "70 %"
"stiff ripe levain" = "20 %"
salt = "2 %"
[[stage]]
do = "bulk"
temperature = "24 C"
until = "doubled"
[[stage]]
do = "divide"
[[stage]]
do = "shape"
[[stage]]
do = "proof"
for = "1 h"
[[stage]]
do = "cold"
for = "12 h"
)";

std::vector<Stop> stops_of(const std::string& text, Time horizon = 72.0 * hour) {
  const auto bake = formula::parse_bake(text, "staged.toml");
  EXPECT_THAT(bake, test::Holds());
  const auto middle = draw(*bake, 1, -1);
  EXPECT_THAT(middle, test::Holds());
  Options options;
  options.horizon = horizon;
  const auto stops = journey(*bake, *middle, proving_of(*bake, options));
  EXPECT_THAT(stops, test::Holds());
  return *stops;
}

TEST(Journey, GoesThroughTheStagesInOrder) {
  const auto stops = stops_of(staged);
  ASSERT_EQ(stops.size(), 5U);
  EXPECT_NEAR(stops[0].rise, 2, 1e-6);
  EXPECT_EQ(stops[1].begin, stops[1].end);
  EXPECT_NEAR((stops[3].end - stops[3].begin).in(hour), 1, 1e-9);
  EXPECT_NEAR((stops[4].end - stops[4].begin).in(hour), 12, 1e-9);
  for (std::size_t i = 1; i < stops.size(); ++i) EXPECT_EQ(stops[i].begin, stops[i - 1].end);
}

TEST(Journey, DividingAndShapingTakeFortyPercentOfTheBubbles) {
  // Common practice, no source: 0.80 * 0.75 = 0.60 of the gas in bubbles stays, before it settles
  // anew.
  const auto stops = stops_of(staged);
  EXPECT_LT(stops[2].rise, stops[1].rise);
  EXPECT_LT(stops[1].rise, stops[0].rise);
  EXPECT_GT(stops[2].rise, 1 + 0.5 * (stops[0].rise - 1));
}

// Cooling dissolves gas and shrinks bubbles without any yeast at work; a loaf cools so slowly that
// it rises on. A roll before a fan shrinks first, and what gas it makes at 4 C barely makes up for
// that.
TEST(Journey, ALoafRisesOnInTheFridgeAndARollHardly) {
  const auto loaves = stops_of(staged);
  EXPECT_GT(loaves[4].rise, loaves[3].rise + 0.1);
  EXPECT_NEAR(loaves[4].dough.celsius(), 4, 1.5);
  const auto rolls = stops_of(std::string(staged) + "each = \"30 g\"\nair = \"fan\"\n");
  EXPECT_LT(rolls[4].rise - rolls[3].rise, 0.5 * (loaves[4].rise - loaves[3].rise));
  EXPECT_NEAR(rolls[4].dough.celsius(), 4, 0.1);
}

TEST(Journey, AFridgeThatComesBackSlowlyTakesTheDoughFurther) {
  const auto at_once = stops_of(staged);
  const auto slowly = stops_of(std::string(staged) + "opens_at = \"14 C\"\nrecovers = \"3 h\"\n");
  EXPECT_LT(slowly[4].least_room, at_once[4].least_room);
  EXPECT_LT(slowly[4].ph, at_once[4].ph - 0.02);
}

TEST(Journey, AfterTheFridgeTheDoughWarmsInItsOwnTime) {
  const std::string warm = std::string(staged) +
                           "[[stage]]\ndo = \"cold\"\nfor = \"1 min\"\ntemperature = \"24 C\"\n"
                           "[[stage]]\ndo = \"cold\"\nfor = \"2 h\"\ntemperature = \"24 C\"\n";
  const auto stops = stops_of(warm);
  ASSERT_EQ(stops.size(), 7U);
  EXPECT_LT(stops[5].dough.celsius(), 6);
  EXPECT_GT(stops[6].dough.celsius(), 12);
  EXPECT_LT(stops[6].dough.celsius(), 20);
}

TEST(Journey, StopsWhereTheVolumeIsNotReached) {
  const auto stops = stops_of(staged, 2.0 * hour);
  ASSERT_EQ(stops.size(), 1U);
  EXPECT_FALSE(stops[0].reached);
}

TEST(Journey, BulkEndsWhenTheForecastSaysReady) {
  const auto bake = formula::parse_bake(staged, "staged.toml");
  const auto forecast = foresee(*bake, {.draws = 20});
  ASSERT_THAT(forecast, test::Holds());
  EXPECT_EQ(forecast->timeline.stages.front().end.p50, forecast->ready.p50);
  EXPECT_EQ(forecast->timeline.stages.front().end.p90, forecast->ready.p90);
}

}  // namespace

}  // namespace barm::forecast

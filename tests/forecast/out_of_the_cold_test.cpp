// A piece that proofs in the cold: its answer is that of the same doughs sent through the stages by
// hand.
#include "forecast/out_of_the_cold.h"

#include <gtest/gtest.h>

#include <cmath>

#include "forecast/ensemble.h"
#include "formula/read.h"
#include "support/matchers.h"

namespace barm::forecast {

namespace {

// A bulk to that ratio, divided, so long in the cold; then what comes after.
formula::Bake to_the_cold(const std::string& bulk,
                          const std::string& cold,
                          const std::string& after = "") {
  const auto bake = formula::parse_bake(R"(flour = "1 kg"
pieces = 2
[bowl]
"white bread flour" = "100 %"
water = "70 %"
"stiff ripe levain" = "20 %"
salt = "2 %"
[[stage]]
do = "bulk"
temperature = "24 C"
until = ")" + bulk + R"("
[[stage]]
do = "divide"
[[stage]]
do = "shape"
[[stage]]
do = "cold"
temperature = "4 C"
for = ")" + cold + "\"\n" + after,
                                        "t.toml");
  EXPECT_THAT(bake, test::Holds());
  return *bake;
}

Forecast seen(const formula::Bake& bake) {
  const auto forecast = foresee(bake, {.draws = 60});
  EXPECT_THAT(forecast, test::Holds());
  return *forecast;
}

const std::vector<double>& rooms_at_the_end(const Forecast& forecast) {
  return forecast.timeline.stages.back().rooms;
}

double share_below(const std::vector<double>& rooms, double room) {
  double below = 0;
  for (const double one : rooms) below += one < room ? 1 : 0;
  return below / static_cast<double>(rooms.size());
}

TEST(OutOfTheCold, HalfOfTheDoughsAreRipeWhereTheyHaveStayedTheMiddleTime) {
  const auto first = seen(to_the_cold("doubled", "10 h")).timeline.out_of_the_cold;
  ASSERT_TRUE(first && first->may_stay.p50);
  const int hours = static_cast<int>(std::lround(first->may_stay.p50->in(hour)));
  ASSERT_GT(hours, 2);
  const Forecast stayed = seen(to_the_cold("doubled", std::to_string(hours) + " h"));
  EXPECT_NEAR(share_below(rooms_at_the_end(stayed), ripe_below), 0.5, 0.1);
  // How long they are meant to stay changes nothing of how long they may.
  EXPECT_NEAR(stayed.timeline.out_of_the_cold->may_stay.p50->in(hour),
              first->may_stay.p50->in(hour),
              0.01 * hours);
}

TEST(OutOfTheCold, TheChancesAreThoseOfTheSameDraws) {
  const Forecast long_cold = seen(to_the_cold("doubled", "20 h"));
  const auto& told = long_cold.timeline.out_of_the_cold;
  ASSERT_TRUE(told);
  EXPECT_NEAR(told->too_long.value(), share_below(rooms_at_the_end(long_cold), ripe_below), 1e-9);
  EXPECT_NEAR(told->straight.value(), share_below(rooms_at_the_end(long_cold), young_above), 1e-9);
  EXPECT_NEAR(told->planned.in(hour), 20, 1e-6);
}

TEST(OutOfTheCold, YoungPiecesStandInTheRoomUntilTheyAreYoungNoMore) {
  const auto young = seen(to_the_cold("1.2", "3 h")).timeline.out_of_the_cold;
  ASSERT_TRUE(young && young->stand.p50);
  EXPECT_LT(young->straight.value(), 0.3);
  EXPECT_GT(*young->stand.p50, 0.25 * hour);
  EXPECT_NEAR(young->room.celsius(), 24, 1e-9);
  EXPECT_FALSE(young->stands);
  const int minutes = static_cast<int>(std::lround(young->stand.p50->in(minute)));
  const Forecast stood =
      seen(to_the_cold("1.2",
                       "3 h",
                       "[[stage]]\ndo = \"proof\"\ntemperature = \"24 C\"\nfor = \"" +
                           std::to_string(minutes) + " min\"\n"));
  EXPECT_NEAR(share_below(rooms_at_the_end(stood), young_above), 0.5, 0.1);
  EXPECT_NEAR(stood.timeline.out_of_the_cold->stands->in(minute), minutes, 1e-6);
}

TEST(OutOfTheCold, AColderFridgeKeepsThemLonger) {
  formula::Bake cold = to_the_cold("doubled", "10 h");
  const auto at_four = seen(cold).timeline.out_of_the_cold;
  cold.stages.back().temperature = Temperature::from_celsius(9);
  const auto at_nine = seen(cold).timeline.out_of_the_cold;
  ASSERT_TRUE(at_four && at_nine);
  EXPECT_GT(*at_four->may_stay.p10, *at_nine->may_stay.p10);
  EXPECT_LT(at_four->too_long.value(), at_nine->too_long.value() + 1e-9);
}

TEST(OutOfTheCold, NothingIsSaidWhereNoPieceProofsInTheCold) {
  const auto bulk_in_the_cold = formula::parse_bake(R"(flour = "1 kg"
[bowl]
"white bread flour" = "100 %"
water = "70 %"
"stiff ripe levain" = "20 %"
[[stage]]
do = "bulk"
for = "3 h"
[[stage]]
do = "cold"
for = "12 h"
[[stage]]
do = "divide"
[[stage]]
do = "proof"
for = "2 h"
)",
                                                    "t.toml");
  ASSERT_THAT(bulk_in_the_cold, test::Holds());
  EXPECT_FALSE(seen(*bulk_in_the_cold).timeline.out_of_the_cold);
  Options out{.draws = 20};
  const formula::Bake bake = to_the_cold("doubled", "10 h");
  out.done = {{3, 18.0 * hour}};
  const auto taken_out = foresee(bake, out);
  ASSERT_THAT(taken_out, test::Holds());
  EXPECT_FALSE(taken_out->timeline.out_of_the_cold);
}

}  // namespace

}  // namespace barm::forecast

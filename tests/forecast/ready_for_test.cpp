// Ready for what: what comes after the bulk says how far it may go.
#include "forecast/ready_for.h"

#include <gtest/gtest.h>

#include "formula/read.h"
#include "support/matchers.h"

namespace barm::forecast {

namespace {

std::string bake(const std::string& levain, const std::string& after) {
  return R"(pieces = 2
piece = "900 g"
[bowl]
"white bread flour" = "100 %"
water = "70 %"
")" + levain +
         R"(" = "20 %"
salt = "2 %"
[[stage]]
do = "bulk"
temperature = "25 C"
until = "doubled"
)" + after;
}

const std::string shaped = "[[stage]]\ndo = \"divide\"\n[[stage]]\ndo = \"shape\"\n";

std::string proof(const std::string& hours) {
  return "[[stage]]\ndo = \"proof\"\ntemperature = \"25 C\"\nfor = \"" + hours + "\"\n";
}

std::string cold(const std::string& rest) {
  return "[[stage]]\ndo = \"cold\"\nfor = \"14 h\"\n" + rest;
}

ReadyFor found(const std::string& text) {
  const auto read = formula::parse_bake(text, "r.toml");
  EXPECT_THAT(read, test::Holds());
  Options options;
  options.draws = 40;
  Made made;
  auto ready = ready_for(*read, options, made);
  EXPECT_THAT(ready, test::Holds());
  EXPECT_TRUE(ready->has_value());
  return **ready;
}

TEST(ReadyFor, ALongerProofWantsAShorterBulk) {
  const ReadyFor brief = found(bake("stiff ripe levain", shaped + proof("1 h")));
  const ReadyFor lengthy = found(bake("stiff ripe levain", shaped + proof("3 h")));
  EXPECT_LT(lengthy.p50, brief.p50 - 0.2);
  EXPECT_LT(lengthy.asked_leaves.value(), brief.asked_leaves.value());
}

TEST(ReadyFor, AFridgeThatComesBackSlowlyWantsAShorterBulk) {
  const ReadyFor at_once = found(bake("stiff ripe levain", shaped + cold("")));
  const ReadyFor slowly =
      found(bake("stiff ripe levain", shaped + cold("opens_at = \"15 C\"\nrecovers = \"4 h\"\n")));
  EXPECT_LT(slowly.p50, at_once.p50 - 0.1);
}

TEST(ReadyFor, RollsBeforeAFanMayGoFurtherThanLoaves) {
  const ReadyFor loaves = found(bake("stiff ripe levain", shaped + cold("")));
  const ReadyFor rolls = found(bake(
      "stiff ripe levain", shaped + cold("each = \"60 g\"\nvessel = \"tray\"\nair = \"fan\"\n")));
  EXPECT_GT(rolls.p50, loaves.p50 + 0.1);
}

TEST(ReadyFor, TheBookDoughGoesInWithTheRoomAskedFor) {
  const ReadyFor ready = found(bake("stiff ripe levain", shaped + proof("2 h")));
  EXPECT_LE(ready.p10, ready.p50);
  EXPECT_LE(ready.p50, ready.p90);
  ASSERT_TRUE(ready.oven);
  EXPECT_EQ(ready.oven->step, formula::Step::proof);
  EXPECT_GT(ready.oven->room_left, 0.1);
  EXPECT_LT(ready.oven->room_left, 0.6);
  EXPECT_EQ(ready.asked, 2);
}

// A whole way of one dough, its bulk ended there: the least room behind the bulk's end.
double room_on_the_way(formula::Bake bake, double ratio, const Options& options) {
  for (formula::Stage& stage : bake.stages) {
    if (stage.step == formula::Step::bulk) stage.until = ratio;
  }
  const auto dough = draw(bake, options.seed, 0, *options.prior);
  EXPECT_THAT(dough, test::Holds());
  const auto stops = journey(bake, *dough, proving_of(bake, options));
  EXPECT_THAT(stops, test::Holds());
  double least = 10;
  for (const Stop& stop : *stops) least = std::min(least, stop.least_room);
  return least;
}

TEST(ReadyFor, LeavesJustTheRoomWantedOnTheWholeWay) {
  const std::string ways[] = {
      shaped + proof("2 h"), cold("") + shaped, shaped + proof("1 h") + cold("")};
  for (const std::string& after : ways) {
    const auto read = formula::parse_bake(bake("stiff ripe levain", after), "r.toml");
    ASSERT_THAT(read, test::Holds());
    for (unsigned long long seed = 1; seed <= 5; ++seed) {
      Options options;
      options.draws = 1;
      options.seed = seed;
      Made made;
      const auto ready = ready_for(*read, options, made);
      ASSERT_THAT(ready, test::Holds());
      const double ratio = (*ready)->p50;
      // One that rises on for long in the cold has less than that after the shortest bulk there is.
      if (ratio <= 1.1) {
        EXPECT_LT(room_on_the_way(*read, ratio, options), (*ready)->room);
        continue;
      }
      EXPECT_NEAR(room_on_the_way(*read, ratio, options), (*ready)->room, 0.01);
      EXPECT_LT(room_on_the_way(*read, 1.05 * ratio, options), (*ready)->room);
    }
  }
}

TEST(ReadyFor, HandsOnItsDrawsAndTheForecastIsTheSame) {
  const auto read = formula::parse_bake(bake("stiff ripe levain", shaped + proof("2 h")), "r.toml");
  ASSERT_THAT(read, test::Holds());
  Options options;
  options.draws = 150;
  Made made;
  ASSERT_THAT(ready_for(*read, options, made), test::Holds());
  const auto anew = foresee(*read, options);
  const auto handed_on = foresee(*read, options, made);
  ASSERT_THAT(anew, test::Holds());
  ASSERT_THAT(handed_on, test::Holds());
  EXPECT_EQ(handed_on->ready_hours, anew->ready_hours);
}

TEST(ReadyFor, SaysWhenWhatComesAfterIsTooLong) {
  const ReadyFor ready = found(bake("liquid ripe levain", shaped + proof("14 h")));
  EXPECT_GT(ready.too_long.value(), 0.8);
}

TEST(ReadyFor, IsTheSameForAnyNumberOfThreads) {
  const auto read = formula::parse_bake(bake("stiff ripe levain", shaped + proof("2 h")), "r.toml");
  Options options;
  options.draws = 24;
  options.threads = 1;
  Made of_one;
  const auto one = ready_for(*read, options, of_one);
  options.threads = 5;
  Made of_five;
  const auto five = ready_for(*read, options, of_five);
  ASSERT_TRUE(one && five);
  EXPECT_EQ((*one)->p10, (*five)->p10);
  EXPECT_EQ((*one)->p50, (*five)->p50);
  EXPECT_EQ((*one)->asked_leaves.value(), (*five)->asked_leaves.value());
}

TEST(ReadyFor, IsEmptyWhenNothingComesAfter) {
  const auto read = formula::parse_bake(bake("stiff ripe levain", ""), "r.toml");
  Made made;
  const auto ready = ready_for(*read, {}, made);
  ASSERT_TRUE(ready);
  EXPECT_FALSE(ready->has_value());
}

}  // namespace

}  // namespace barm::forecast

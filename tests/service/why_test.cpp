// What a dough can hold, why it never gets there, what mends it, what a late dough is advised.
#include "service/bake/why.h"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "../support/matchers.h"
#include "forecast/reach.h"
#include "formula/read.h"
#include "service/bake/foresee.h"
#include "service/bake/reach.h"

namespace barm::service {

namespace {

using barm::test::Holds;
using forecast::Obstacle;
using nlohmann::json;
using testing::HasSubstr;
using testing::Not;

formula::Bake baked_of(const std::string& bowl, const std::string& bulk) {
  const auto bake = formula::parse_bake(
      "name = \"why\"\nflour = \"2 kg\"\n[bowl]\n" + bowl + "[[stage]]\ndo = \"bulk\"\n" + bulk,
      "why.toml");
  EXPECT_THAT(bake, Holds());
  return *bake;
}

constexpr const char* white =
    "\"white bread flour\" = \"100 %\"\nsalt = \"2 %\"\n\"stiff ripe levain\" = \"20 %\"\n";
constexpr const char* rye =
    "\"rye flour\" = \"100 %\"\nwater = \"60 %\"\nsalt = \"1.8 %\"\n\"rye sour\" = \"40 %\"\n";

ForeseeAnswer foreseen_of(const formula::Bake& bake) {
  forecast::Options options;
  options.draws = 100;
  auto answer = service::foresee(bake, options);
  EXPECT_THAT(answer, Holds());
  return *std::move(answer);
}

}  // namespace

// Common practice, no source: rye rises 1.4 to 1.8 times and has a short window.
TEST(Limit, ARyeDoughIsToldItAndItsWindowAndNeverNotWithin) {
  const auto answer = foreseen_of(baked_of(rye, "temperature = \"28 C\"\nuntil = \"doubled\"\n"));
  ASSERT_TRUE(answer.why_never);
  EXPECT_EQ(answer.why_never->obstacle, Obstacle::cannot_hold);
  const json said = to_json(answer);
  EXPECT_THAT(said["why_never"]["in_place_of_ready"].get<std::string>(), Not(HasSubstr("within")));
  EXPECT_THAT(said["limit"]["words"].get<std::string>(), HasSubstr("use it between"));
  EXPECT_GE(said["limit"]["p50_ratio"].get<double>(), 1.4);
  EXPECT_LE(said["limit"]["p50_ratio"].get<double>(), 1.8);
  ASSERT_TRUE(answer.why_never->change);
  EXPECT_EQ(answer.why_never->change->what, forecast::Change::What::target);
  EXPECT_LE(answer.why_never->change->at_most, said["limit"]["p50_ratio"].get<double>());
  EXPECT_GE(answer.why_never->change->at_most, 1.2);
}

TEST(Limit, ARyeDoughThatGetsThereIsToldItToo) {
  const auto answer = foreseen_of(baked_of(rye, "temperature = \"28 C\"\nuntil = \"1.3 x\"\n"));
  EXPECT_FALSE(answer.why_never);
  ASSERT_TRUE(answer.forecast.ready.p50 && answer.forecast.fallen.p50);
  EXPECT_LT((*answer.forecast.fallen.p50 - *answer.forecast.ready.p50).in(hour), 8);
  EXPECT_THAT(to_json(answer)["limit"]["words"].get<std::string>(), HasSubstr("times at most"));
}

TEST(Limit, AWheatDoughThatGetsThereIsNotTroubledWithIt) {
  const auto answer = foreseen_of(baked_of(std::string(white) + "water = \"70 %\"\n",
                                           "temperature = \"24 C\"\nuntil = \"doubled\"\n"));
  EXPECT_EQ(to_json(answer)["limit"]["words"], "");
  EXPECT_TRUE(to_json(answer)["why_never"].is_null());
}

TEST(WhyNever, TooMuchVinegarStopsTheYeastAndLessOfItMendsIt) {
  const formula::Bake bake = baked_of(std::string(white) +
                                          "liquid = \"70 %\"\nvinegar = \"40 % of the liquid\"\n"
                                          "water = \"rest of the liquid\"\n",
                                      "temperature = \"24 C\"\nuntil = \"doubled\"\n");
  const auto answer = foreseen_of(bake);
  ASSERT_TRUE(answer.why_never);
  EXPECT_EQ(answer.why_never->obstacle, Obstacle::yeast_stops);
  EXPECT_EQ(answer.in_the_way.hindrances.front().factor, kinetics::Factor::acid);
  ASSERT_TRUE(answer.why_never->change);
  const forecast::Change& change = *answer.why_never->change;
  EXPECT_EQ(change.what, forecast::Change::What::share_of_liquid);
  EXPECT_NEAR(change.instead_of, 0.4, 0.02);
  EXPECT_LT(change.at_most, 0.3);
  EXPECT_THAT(words(change), HasSubstr("of the liquid as"));
  // It does mend it.
  const auto mended = forecast::with_share(bake, change.of, change.at_most);
  ASSERT_THAT(mended, Holds());
  EXPECT_LT(foreseen_of(*mended).forecast.never.value(), 0.3);
}

// At 5 °C half of the doughs need a week: they were told that the yeast stops.
TEST(WhyNever, ADoughThatOnlyTakesLongerIsToldSo) {
  const auto answer = foreseen_of(baked_of(std::string(white) + "water = \"70 %\"\n",
                                           "temperature = \"5 C\"\nuntil = \"doubled\"\n"));
  ASSERT_TRUE(answer.why_never && answer.why_never->change);
  EXPECT_EQ(answer.why_never->obstacle, Obstacle::too_slow);
  EXPECT_EQ(answer.why_never->change->what, forecast::Change::What::temperature);
}

// Wine as 70 % and cider as 30 % of the liquid: the wine is 70 % of it, not all that is not cider.
TEST(WhyNever, SharesAreOfAllTheLiquidAsTheFileHasIt) {
  const formula::Bake bake =
      baked_of(std::string(white) +
                   "liquid = \"70 %\"\n\"white wine\" = \"70 % of the liquid\"\n"
                   "\"dry cider\" = \"30 % of the liquid\"\n",
               "temperature = \"24 C\"\nuntil = \"doubled\"\n");
  const auto answer = foreseen_of(bake);
  ASSERT_TRUE(answer.why_never && answer.why_never->change);
  EXPECT_NEAR(answer.why_never->change->instead_of, 0.7, 1e-9);
  EXPECT_LT(answer.why_never->change->at_most, 0.7);
  const auto far = reach(bake, "white wine", 14.0 * hour, Probability(0.8), {.draws = 60});
  ASSERT_THAT(far, Holds());
  EXPECT_NEAR(far->reach.now, 0.7, 1e-9);
  EXPECT_LT(far->reach.share, 0.7);
}

TEST(WhyNever, TooWarmAPlaceIsMendedByACoolerOne) {
  const auto answer = foreseen_of(baked_of(std::string(white) + "water = \"70 %\"\n",
                                           "temperature = \"45 C\"\nuntil = \"doubled\"\n"));
  ASSERT_TRUE(answer.why_never && answer.why_never->change);
  EXPECT_EQ(answer.why_never->change->what, forecast::Change::What::temperature);
  EXPECT_LT(answer.why_never->change->at_most, 45);
  EXPECT_GT(answer.why_never->change->at_most, 30);
  EXPECT_THAT(words(*answer.why_never->change), HasSubstr("instead of 45"));
}

TEST(WhyNever, RawFruitLeavesADoughThatCannotHoldItsGas) {
  const auto answer =
      foreseen_of(baked_of(std::string(white) + "water = \"55 %\"\n\"raw pineapple\" = \"25 %\"\n",
                           "temperature = \"24 C\"\nuntil = \"doubled\"\n"));
  ASSERT_TRUE(answer.why_never);
  EXPECT_EQ(answer.why_never->obstacle, Obstacle::cannot_hold);
  ASSERT_TRUE(answer.why_never->change);
  EXPECT_EQ(answer.why_never->change->of, "raw pineapple");
}

TEST(Costs, AreSaidAsTheyAddUp) {
  for (const char* bulk : {"temperature = \"24 C\"\nuntil = \"doubled\"\n",
                           "temperature = \"15 C\"\nuntil = \"1.7 x\"\n",
                           "temperature = \"34 C\"\nuntil = \"2.1 x\"\n"}) {
    const auto answer = foreseen_of(baked_of(
        std::string(white) + "water = \"30 %\"\n\"dry mead\" = \"40 %\"\nraisins = \"10 %\"\n",
        bulk));
    const forecast::InTheWay& way = answer.in_the_way;
    ASSERT_TRUE(way.bare);
    double sum = std::round(4 * way.bare->in(hour));
    for (const forecast::Hindrance& one : way.hindrances) sum += std::round(4 * one.said.in(hour));
    EXPECT_EQ(sum, std::round(4 * way.as_it_is.value_or(way.horizon).in(hour))) << bulk;
  }
}

TEST(Costs, NameTheColdAndAHungryLevain) {
  const formula::Bake bake = baked_of(
      "\"white bread flour\" = \"100 %\"\nsalt = \"2 %\"\nwater = \"65 %\"\nlevain = \"20 %\"\n"
      "[levain]\nstarter = \"stiff ripe levain\"\nflour = \"white bread flour\"\nfeed = \"1:2:1\"\n"
      "temperature = \"26 C\"\nsince_feeding = \"60 h\"\n",
      "temperature = \"16 C\"\nuntil = \"doubled\"\n");
  const auto answer = foreseen_of(bake);
  double cold = 0;
  double hunger = 0;
  for (const forecast::Hindrance& one : answer.in_the_way.hindrances) {
    if (one.factor == kinetics::Factor::cold) cold = one.costs.in(hour);
    if (one.factor == kinetics::Factor::hunger) hunger = one.costs.in(hour);
  }
  EXPECT_GT(cold, 3);
  EXPECT_GT(hunger, 1);
}

}  // namespace barm::service

#include "forecast/rescue.h"

#include <gtest/gtest.h>

#include <cmath>

#include "forecast/dough_of.h"
#include "formula/read.h"
#include "kinetics/system.h"
#include "support/matchers.h"

namespace barm::forecast {

namespace {

using test::FailsWith;
using test::Holds;

formula::Bake bake_with(const std::string& liquids) {
  const auto bake = formula::parse_bake(
      "name = \"late\"\nflour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\n" + liquids +
          "salt = \"2 %\"\n\"stiff ripe levain\" = \"15 %\"\n"
          "[[stage]]\ndo = \"bulk\"\ntemperature = \"22 C\"\nuntil = \"doubled\"\n",
      "late.toml");
  EXPECT_THAT(bake, Holds());
  return *bake;
}

const formula::Bake& wine_bake() {
  static const formula::Bake bake = bake_with("\"white wine\" = \"35 %\"\nwater = \"35 %\"\n");
  return bake;
}

RescueOptions at(double now, double by) {
  RescueOptions options;
  options.now = now * hour;
  options.by = by * hour;
  options.seed = 3;
  return options;
}

Rescue rescued(const formula::Bake& bake, const RescueOptions& options, int draws = 120) {
  auto found = rescue(bake, options, draws);
  EXPECT_THAT(found, Holds());
  return found ? *found : Rescue{};
}

const WayOut& best(const Rescue& rescue, Remedy remedy) {
  for (const WayOut& way : rescue.ways) {
    if (way.remedy == remedy) return way;
  }
  throw std::runtime_error("no such way");
}

TEST(Rescue, WaitingIsTheForecast) {
  // Said to be at the very start, all doughs count and waiting is what foresee() says.
  const Rescue waiting = rescued(wine_bake(), at(0, 60), 200);
  Options options;
  options.draws = 200;
  options.seed = 3;
  options.horizon = 84.0 * hour;
  options.curves = false;
  const auto forecast = foresee(wine_bake(), options);
  ASSERT_THAT(forecast, Holds());
  const WayOut& wait = best(waiting, Remedy::wait);
  ASSERT_TRUE(wait.ready.p50 && forecast->ready.p50);
  EXPECT_NEAR(wait.ready.p50->in(hour), forecast->ready.p50->in(hour), 0.02);
  EXPECT_NEAR(wait.ready.p10->in(hour), forecast->ready.p10->in(hour), 0.02);
}

TEST(Rescue, StartsFromThePriorItIsGiven) {
  // A culture that grows at six tenths of the published speed: waiting is its forecast, not day
  // one's.
  kinetics::JointPrior slow = kinetics::day_one();
  slow.centre[static_cast<std::size_t>(kinetics::Parameter::wild_growth)] += std::log(0.6);
  RescueOptions asked = at(0, 72);
  asked.prior = &slow;
  const Rescue waiting = rescued(wine_bake(), asked, 120);
  Options options;
  options.draws = 120;
  options.seed = 3;
  options.horizon = 96.0 * hour;
  options.curves = false;
  options.prior = &slow;
  const auto forecast = foresee(wine_bake(), options);
  ASSERT_THAT(forecast, Holds());
  const WayOut& wait = best(waiting, Remedy::wait);
  ASSERT_TRUE(wait.ready.p50 && forecast->ready.p50);
  EXPECT_NEAR(wait.ready.p50->in(hour), forecast->ready.p50->in(hour), 0.02);
  const Rescue usually = rescued(wine_bake(), at(0, 72), 120);
  const WayOut& usual = best(usually, Remedy::wait);
  EXPECT_GT(wait.ready.p50->in(hour), usual.ready.p50->in(hour) + 1);
}

TEST(Rescue, TakesUpADoughWhereItStands) {
  // A run that is broken off and taken up again ends as the whole run does.
  const auto one = draw(wine_bake(), 3, 5);
  ASSERT_THAT(one, Holds());
  Proving proving;
  proving.temperature = Temperature::from_celsius(22);
  proving.horizon = 60.0 * hour;
  const auto whole = run(one->dough, one->parameters, proving);
  ASSERT_THAT(whole, Holds());
  proving.horizon = 11.0 * hour;
  const auto first = run(one->dough, one->parameters, proving);
  ASSERT_THAT(first, Holds());
  const auto terms = kinetics::terms(one->dough, one->parameters, 22.0, 22.0);
  proving.horizon = 49.0 * hour;
  proving.beginning = Beginning{first->at_end, terms.volume_at_start};
  const auto second = run(one->dough, one->parameters, proving);
  ASSERT_THAT(second, Holds());
  ASSERT_TRUE(whole->ready && second->ready);
  EXPECT_NEAR(whole->ready->in(hour), 11 + second->ready->in(hour), 1e-3);
  EXPECT_NEAR(whole->largest_rise, second->largest_rise, 1e-4);
}

TEST(Rescue, ThinningConservesMassAndLowersAlcohol) {
  const Rescue found = rescued(wine_bake(), at(14, 30));
  int thinned = 0;
  for (const WayOut& way : found.ways) {
    if (way.remedy != Remedy::thin) continue;
    ++thinned;
    // Alcohol by weight stays, the water phase grows by the water added: checked by the ratio.
    EXPECT_LT(way.alcohol_after, way.alcohol_before);
    EXPECT_GT(way.addition.flour.si(), 0);
    EXPECT_GT(way.addition.water.si(), 0);
    EXPECT_GT(way.addition.salt.si(), 0);
    EXPECT_EQ(way.addition.levain.si(), 0);
    const double salt = way.addition.salt / way.addition.flour;
    EXPECT_NEAR(salt, 0.02, 1e-9);
  }
  EXPECT_EQ(thinned, 3);
}

TEST(Rescue, MoreThinningLeavesLessAlcohol) {
  const Rescue found = rescued(wine_bake(), at(14, 30));
  std::vector<std::pair<double, double>> by_flour;
  for (const WayOut& way : found.ways) {
    if (way.remedy == Remedy::thin)
      by_flour.emplace_back(way.addition.flour.si(), way.alcohol_after);
  }
  std::sort(by_flour.begin(), by_flour.end());
  for (std::size_t i = 1; i < by_flour.size(); ++i)
    EXPECT_LT(by_flour[i].second, by_flour[i - 1].second);
}

TEST(Rescue, DoesNotAdviseMoreWarmthThanTheCultureBears) {
  RescueOptions options = at(10, 30);
  options.places = {Temperature::from_celsius(26), Temperature::from_celsius(34)};
  const Rescue found = rescued(wine_bake(), options);
  std::size_t hot = 0;
  std::size_t wait = 0;
  for (std::size_t i = 0; i < found.ways.size(); ++i) {
    if (found.ways[i].place && found.ways[i].place->celsius() > 33) {
      EXPECT_TRUE(found.ways[i].too_warm);
      hot = i;
    }
    if (found.ways[i].remedy == Remedy::wait) wait = i;
  }
  EXPECT_GT(hot, wait);
}

TEST(Rescue, RanksByChanceThenByHowLittleItMeddles) {
  const Rescue found = rescued(wine_bake(), at(12, 26));
  EXPECT_EQ(found.ways.back().remedy, Remedy::flatbread);
  bool enough = true;
  double before = 1;
  for (const WayOut& way : found.ways) {
    if (way.remedy == Remedy::flatbread || way.too_warm) break;
    const bool does = way.in_time.value() >= 0.8;
    EXPECT_TRUE(enough || !does) << "one that does stands behind one that does not";
    if (!does && !enough) {
      EXPECT_LE(way.in_time.value(), before + 1e-12);
    }
    if (!does) before = way.in_time.value();
    enough = does;
  }
}

TEST(Rescue, ColdKeepsADoughThatIsAhead) {
  // A plain dough nearly ready, wanted in the morning: waiting loses it, the cold keeps more of
  // them.
  const formula::Bake plain = bake_with("water = \"70 %\"\n");
  RescueOptions options = at(8, 30);
  options.not_before = 29.0 * hour;
  const Rescue found = rescued(plain, options);
  const double wait = best(found, Remedy::wait).in_time.value();
  const double cold = best(found, Remedy::cool).in_time.value();
  EXPECT_GT(cold, wait + 0.2);
}

TEST(Rescue, GivesUpLaterWhenThereIsMoreTime) {
  const Rescue tight = rescued(wine_bake(), at(6, 16));
  const Rescue ample = rescued(wine_bake(), at(6, 40));
  ASSERT_TRUE(tight.giving_up.at.has_value());
  if (ample.giving_up.at) {
    EXPECT_GT(*ample.giving_up.at, *tight.giving_up.at);
  }
}

TEST(Rescue, SaysWhatIsWrong) {
  EXPECT_THAT(rescue(wine_bake(), at(20, 10), 40), FailsWith(ErrorCode::bad_input));
  RescueOptions hot = at(2, 20);
  hot.places = {Temperature::from_celsius(80)};
  EXPECT_THAT(rescue(wine_bake(), hot, 40), FailsWith(ErrorCode::bad_input));
}

TEST(Rescue, ALargeTubFollowsItsPlaceMoreSlowly) {
  const auto after_hour = [](const char* flour) {
    formula::Bake bake = wine_bake();
    bake.flour_total = std::atof(flour) * kilogram;
    RescueOptions options = at(10, 30);
    options.places = {Temperature::from_celsius(4)};
    return best(rescued(bake, options, 40), Remedy::cool).degrees_after_hour;
  };
  EXPECT_GT(after_hour("20"), after_hour("1") + 1);
  EXPECT_LT(after_hour("20"), 22);
}

}  // namespace

}  // namespace barm::forecast

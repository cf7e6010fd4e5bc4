// A levain raised with baker's yeast: a poolish, a biga.
#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>

#include "forecast/draw.h"
#include "forecast/feeding.h"
#include "forecast/levain.h"
#include "formula/bowl.h"
#include "formula/read.h"
#include "larder/larder.h"

namespace barm::forecast {

namespace {

const std::string bulk =
    "\n[[stage]]\ndo = \"bulk\"\ntemperature = \"24 C\"\nuntil = \"doubled\"\n";

formula::Bake read(const std::string& bowl, const std::string& levain) {
  auto bake = formula::parse_bake(
      "name = \"x\"\nflour = \"1 kg\"\n[bowl]\n" + bowl + "salt = \"2 %\"\n" + levain + bulk,
      "x.toml");
  if (!bake) throw std::runtime_error(bake.error().text());
  return *bake;
}

// Half of the flour in a poolish so many hours old, 68 % water in all.
formula::Bake on_poolish(const std::string& hours, const std::string& yeast = "0.002") {
  return read("\"white bread flour\" = \"100 %\"\nwater = \"18 %\"\nlevain = \"100 %\"\n",
              "[levain]\nstarter = \"fresh yeast\"\nflour = \"white bread flour\"\nfeed = \"" +
                  yeast + ":1:1\"\ntemperature = \"20 C\"\nsince_feeding = \"" + hours + " h\"\n");
}

double doubled(const formula::Bake& bake) {
  const auto one = draw(bake, 1, -1);
  if (!one) throw std::runtime_error(one.error().text());
  const auto course = run(one->dough, one->parameters, {});
  if (!course || !course->ready) throw std::runtime_error("never doubled");
  return course->ready->in(hour);
}

TEST(Poolish, StirredInAtOnceIsADoughOfItsYeast) {
  // 0.1 % of the flour is yeast either way; the poolish of no hours has only woken it.
  const double packet = doubled(read(
      "\"white bread flour\" = \"100 %\"\nwater = \"68 %\"\n\"fresh yeast\" = \"0.1 %\"\n", ""));
  const auto fresh = draw(on_poolish("0.1"), 1, -1);
  const auto straight = draw(
      read("\"white bread flour\" = \"100 %\"\nwater = \"68 %\"\n\"fresh yeast\" = \"0.1 %\"\n",
           ""),
      1,
      -1);
  ASSERT_TRUE(fresh && straight);
  EXPECT_NEAR(fresh->dough.bakers_yeast / straight->dough.bakers_yeast, 1, 0.01);
  EXPECT_NEAR(fresh->dough.water / straight->dough.water, 1, 0.01);
  EXPECT_NEAR(fresh->dough.flour_buffering / straight->dough.flour_buffering, 1, 0.01);
  EXPECT_EQ(fresh->dough.wild_yeast, 0);
  EXPECT_EQ(fresh->dough.bacteria, 0);
  EXPECT_EQ(fresh->dough.packet, 0);
  EXPECT_EQ(straight->dough.packet, 1);
  EXPECT_LT(doubled(on_poolish("0.1")), packet);
}

TEST(Poolish, GrowsItsYeastOvernight) {
  const auto young = draw(on_poolish("1"), 1, -1);
  const auto ripe = draw(on_poolish("13"), 1, -1);
  ASSERT_TRUE(young && ripe);
  EXPECT_GT(ripe->dough.bakers_yeast, 2 * young->dough.bakers_yeast);
  EXPECT_GT(ripe->dough.ethanol, young->dough.ethanol);
  EXPECT_LT(doubled(on_poolish("13")), 0.6 * doubled(on_poolish("1")));
}

TEST(Poolish, MoreYeastIsFaster) {
  EXPECT_LT(doubled(on_poolish("10", "0.004")), doubled(on_poolish("10", "0.002")));
}

TEST(Poolish, UnfedTooLongIsSlower) {
  EXPECT_GT(doubled(on_poolish("60")), doubled(on_poolish("20")));
}

TEST(Poolish, CountsItsFlourAndHoldsItsWeight) {
  const formula::Bake bake = on_poolish("13");
  const auto bowl = formula::in_the_bowl(bake);
  ASSERT_TRUE(bowl);
  EXPECT_NEAR(bowl->flour.in(gram), 1000, 1e-6);
  // Of 1000 g of poolish, 0.002 + 1 + 1 parts, one part is flour; its yeast counts with the water,
  // as salt's own 0.2 % does.
  EXPECT_NEAR(bowl->levain_flour.in(gram), 1000 / 2.002, 1e-6);
  EXPECT_NEAR(bowl->added_water.in(gram), 180 + 1000 - 1000 / 2.002, 0.2);
}

TEST(Poolish, IsFedToTheHour) {
  formula::Levain levain;
  levain.starter = *larder::find("fresh yeast");
  levain.flour = *larder::find("white bread flour");
  levain.ripe = 0.002;
  levain.fresh_flour = levain.water = 1;
  levain.temperature = Temperature::from_celsius(20);
  Options options;
  options.draws = 20;
  const auto fed = feed_to_peak_in(levain, 1000.0 * gram, 14.0 * hour, options);
  ASSERT_TRUE(fed) << fed.error().text();
  ASSERT_TRUE(fed->peak.p50);
  EXPECT_NEAR(fed->peak.p50->in(hour), 14, 2.5);
  EXPECT_GT(fed->fresh_flour, 100);
  EXPECT_LT(fed->fresh_flour, 4000);
}

TEST(Poolish, TooMuchYeastIsNone) {
  for (const char* feed : {"", "feed = \"1:2:1\"\n"}) {
    const auto bake = formula::parse_bake(
        "name = \"x\"\nflour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nwater = \"30 "
        "%\"\nlevain = \"60 %\"\n[levain]\nstarter = \"fresh yeast\"\n" +
            std::string(feed) + bulk,
        "x.toml");
    ASSERT_FALSE(bake);
    EXPECT_NE(bake.error().text().find("0.002:1:1"), std::string::npos) << bake.error().text();
  }
}

}  // namespace

}  // namespace barm::forecast

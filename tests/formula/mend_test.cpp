#include <gmock/gmock.h>

#include "formula/bakes.h"
#include "formula/solve.h"

namespace barm::formula {

namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

Mend mended(const Bake& bake) {
  const auto mend = formula::mend(bake);
  if (mend) return *mend;
  ADD_FAILURE() << mend.error().text();
  return {};
}

/// The bowl with what was poured and what is to be added.
Bowl after(const Bake& bake, const Mend& mend) {
  Bake poured = bake;
  const Bowl now = test::bowl(bake);
  for (std::size_t i = 0; i < now.lines.size(); ++i) {
    Mass all = now.lines[i].actual;
    for (const auto& one : mend.add) {
      if (one.ingredient == now.lines[i].name) all += one.mass;
    }
    poured.bowl[i].weighed = all;
  }
  return test::bowl(poured);
}

void expect_every_share_as_planned(const Bake& bake, const Mend& mend) {
  const Bowl in = after(bake, mend);
  Mass plan;
  for (const Weighed& line : in.lines) plan += line.plan;
  for (const Weighed& line : in.lines) {
    EXPECT_NEAR(line.actual / in.dough, line.plan / plan, 1e-12) << line.name;
  }
  EXPECT_NEAR(mend.extra_dough.in(gram), (in.dough - plan).in(gram), 1e-6);
}

TEST(Mend, NothingWhenAllIsAsPlanned) {
  const Mend mend = mended(test::bake(test::plain));
  EXPECT_FALSE(mend.needed);
  EXPECT_TRUE(mend.possible);
  EXPECT_THAT(mend.add, IsEmpty());
}

TEST(Mend, ScalesEverythingUpToAnOverPour) {
  const Bake bake = test::example("stout-loaf.toml");
  const Mend mend = mended(bake);
  EXPECT_TRUE(mend.needed);
  EXPECT_TRUE(mend.possible);
  expect_every_share_as_planned(bake, mend);
  EXPECT_EQ(mend.add.size(), 5U);  // all but the stout
  EXPECT_NEAR(mend.extra_dough.in(gram), 0.1 * 3784, 1e-6);
  EXPECT_THAT(mend.words, HasSubstr("54 g water"));
  EXPECT_THAT(mend.words, HasSubstr("that makes 378 g (10 %) more dough"));
}

TEST(Mend, FillsUpAnUnderPour) {
  const Bake bake = test::bake(test::plain + "[weighed]\nwater = \"619 g\"\nsalt = \"19 g\"\n");
  const Mend mend = mended(bake);
  expect_every_share_as_planned(bake, mend);
  EXPECT_EQ(mend.words, "Add 31 g water and 1.0 g salt; the dough is as planned.");
}

TEST(Mend, FillsUpAndScalesAtOnce) {
  const Bake bake = test::bake(test::plain + "[weighed]\nwater = \"715 g\"\nsalt = \"18 g\"\n");
  const Mend mend = mended(bake);
  expect_every_share_as_planned(bake, mend);
  EXPECT_NEAR(mend.extra_dough.in(gram), 168, 1e-6);
}

TEST(Mend, WaterStillToComeIsPouredLess) {
  const Bake bake = test::bake(test::mead + "[weighed]\n\"dry mead\" = \"380 g\"\n");
  const Mend mend = mended(bake);
  ASSERT_TRUE(mend.pour_less.has_value());
  EXPECT_EQ(mend.pour_less->ingredient, "water");
  Bake poured = bake;
  for (Portion& portion : poured.bowl)
    if (portion.ingredient.name == "water") portion.weighed = mend.pour_less->leaves;
  const Bowl plan = test::bowl(test::mead);
  const Bowl in = test::bowl(poured);
  // Tap water is not all water: a thousandth.
  EXPECT_NEAR(in.added_water / plan.added_water, 1, 1e-3);
  EXPECT_NEAR(in.flour / plan.flour, 1, 1e-12);
  EXPECT_THAT(mend.words, HasSubstr("less water"));
}

TEST(Mend, WaterInTheBowlCannotBePouredLess) {
  const Mend mend =
      mended(test::bake(test::mead + "[weighed]\n\"dry mead\" = \"380 g\"\nwater = \"350 g\"\n"));
  EXPECT_TRUE(mend.needed);
  EXPECT_FALSE(mend.pour_less.has_value());
}

TEST(Mend, WhatWasAddedNeedsNoMore) {
  Bake bake = test::bake(test::mead + "[weighed]\n\"dry mead\" = \"380 g\"\nwater = \"350 g\"\n");
  const Bowl now = test::bowl(bake);
  const Mend first = mended(bake);
  for (std::size_t i = 0; i < now.lines.size(); ++i) {
    for (const auto& one : first.add)
      if (one.ingredient == now.lines[i].name)
        bake.bowl[i].weighed = now.lines[i].actual + one.mass;
  }
  const Mend then = mended(bake);
  EXPECT_THAT(then.add, IsEmpty());
  EXPECT_THAT(then.words, HasSubstr("in proportion"));
}

TEST(Mend, LeavesAloneWhatNoDoughFeels) {
  // Two thirds of a gram of salt on five kilograms of dough.
  const Mend mend = mended(test::bake(test::mead + "[weighed]\nsalt = \"19.8 g\"\n"));
  EXPECT_FALSE(mend.needed);
  EXPECT_TRUE(mended(test::bake(test::mead + "[weighed]\nsalt = \"18 g\"\n")).needed);
}

TEST(Mend, GoesToHalfAsMuchAgainAndNoFurther) {
  EXPECT_TRUE(mended(test::bake(test::plain + "[weighed]\nwater = \"974 g\"\n")).possible);
  EXPECT_FALSE(mended(test::bake(test::plain + "[weighed]\nwater = \"976 g\"\n")).possible);
}

TEST(Mend, TwiceTheDrinkKeepsAlcoholAndSaltRight) {
  const Bake bake = test::bake(test::mead + "[weighed]\n\"dry mead\" = \"700 g\"\n");
  const Mend mend = mended(bake);
  EXPECT_TRUE(mend.needed);
  EXPECT_FALSE(mend.possible);
  EXPECT_THAT(mend.words, HasSubstr("dry mead is 2 times its plan"));
  const Bowl plan = test::bowl(test::mead);
  const Bowl in = after(bake, mend);
  // Tap water is not all water and salt is not all salt: a thousandth.
  EXPECT_NEAR(in.ethanol_in_water().si(), plan.ethanol_in_water().si(), 0.04);
  EXPECT_NEAR(in.salt_in_water().si(), plan.salt_in_water().si(), 0.04);
  EXPECT_LE(in.dough.si(), 1.5 * plan.dough.si());
}

TEST(Mend, TwiceTheSaltTakesTheRestToHalfAsMuchAgain) {
  const Bake bake = test::bake(test::plain + "[weighed]\nsalt = \"60 g\"\n");
  const Mend mend = mended(bake);
  EXPECT_FALSE(mend.possible);
  const Bowl in = after(bake, mend);
  EXPECT_NEAR(test::grams(test::line(in, "white bread flour").actual), 1500, 1e-6);
  EXPECT_NEAR(test::grams(test::line(in, "water").actual), 975, 1e-6);
  EXPECT_NEAR(in.salt / in.flour, 0.04, 0.0001);
  EXPECT_THAT(mend.words, HasSubstr("all the rest is right"));
}

TEST(Mend, WhatWasNotPlannedCannotBeMended) {
  const Bake bake = test::bake(
      "flour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nwater = \"65 %\"\nhoney = \"0 "
      "g\"\n[weighed]\nhoney = \"50 g\"\n");
  const Mend mend = mended(bake);
  EXPECT_FALSE(mend.possible);
  EXPECT_THAT(mend.words, HasSubstr("honey was not planned at all"));
}

}  // namespace

}  // namespace barm::formula

#include "drink/simmer.h"

#include <gtest/gtest.h>

#include "chemistry/ethanol_water.h"
#include "chemistry/vapour.h"
#include "larder/larder.h"
#include "support/matchers.h"

namespace barm::drink {

namespace {

using larder::Composition;
using larder::Property;
using test::FailsWith;
using test::Holds;

Composition drink(const char* name) { return *larder::typical(*larder::find(name)); }

// Ethanol and water alone, by mass.
Composition spirit(double ethanol) {
  Composition c;
  c[Property::ethanol] = ethanol;
  c[Property::water] = 1 - ethanol;
  c[Property::ph] = 7;
  return c;
}

TEST(Simmer, NothingIsLostButWhatLeaves) {
  const Composition wine = drink("red wine");
  const auto s = simmer(wine, {}, {.share = 0.6, .strength = {}});
  ASSERT_THAT(s, Holds());
  EXPECT_NEAR(s->mass.in(gram), 600, 1e-6);
  EXPECT_NEAR((s->alcohol_out + s->water_out).in(gram), 400, 1e-6);
  const double sugar = wine[Property::glucose] * 1000;
  EXPECT_NEAR(s->left[Property::glucose] * s->mass.in(gram), sugar, 1e-9);
  EXPECT_NEAR((wine[Property::ethanol] * kilogram - s->alcohol_out).in(gram),
              s->left[Property::ethanol] * s->mass.in(gram),
              1e-9);
  EXPECT_LT(s->acetic_kept, 1);
  EXPECT_GT(s->acetic_kept, 0.6);  // less volatile than water: it gathers
}

// The azeotrope of the model boils away as it is: nothing gets stronger or weaker.
TEST(Simmer, TheAzeotropeStaysWhatItIs) {
  double low = 0.8;
  double high = 0.95;
  for (int i = 0; i < 60; ++i) {
    const double x = 0.5 * (low + high);
    (chemistry::boiling_point(MoleFraction(x), atmosphere)->vapour.value() > x ? low : high) = x;
  }
  // Perry: at x 0.8943 the vapour is the same, at 78.15 C; the fit has 0.007 in y as its mean
  // error.
  const auto published = chemistry::boiling_point(MoleFraction(0.8943), atmosphere);
  EXPECT_NEAR(published->vapour.value(), 0.8943, 0.007);
  EXPECT_NEAR(published->temperature.celsius(), 78.15, 0.3);
  const Composition mixture = spirit(chemistry::mass_fraction(MoleFraction(low)).value());
  const auto s = simmer(mixture, {}, {.share = 0.3, .strength = {}});
  ASSERT_THAT(s, Holds());
  EXPECT_NEAR(s->left[Property::ethanol], mixture[Property::ethanol], 1e-6);
}

TEST(Simmer, StopsAtAStrengthAndNeedsThePansHeat) {
  const auto s = simmer(drink("red wine"), {}, {.share = 0, .strength = AlcoholByVolume(0.02)});
  ASSERT_THAT(s, Holds());
  EXPECT_NEAR(s->course.back().strength.value(), 0.02, 1e-6);
  Pan hotter;
  hotter.heat = 2 * hotter.heat;
  const auto faster =
      simmer(drink("red wine"), hotter, {.share = 0, .strength = AlcoholByVolume(0.02)});
  ASSERT_THAT(faster, Holds());
  EXPECT_NEAR(faster->lasts.si() * 2, s->lasts.si(), 1e-6);
  EXPECT_NEAR(faster->mass.si(), s->mass.si(), 1e-12);
}

TEST(Simmer, SaysWhatCannotBe) {
  EXPECT_THAT(simmer(drink("red wine"), {}, {.share = 0, .strength = AlcoholByVolume(0.2)}),
              FailsWith(ErrorCode::bad_input))
      << "it has 13 % vol";
  EXPECT_THAT(simmer(drink("red wine"), {}, {}), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(simmer(drink("red wine"), {.drink = {}}, {.share = 0.5, .strength = {}}),
              FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(simmer(drink("liqueur"), {}, {.share = 0.1, .strength = {}}),
              FailsWith(ErrorCode::cannot_be_met));
}

TEST(FlashPoint, LiesBetweenTheRowsOfTheTable) {
  EXPECT_FALSE(flash_point(MassFraction(0.04)));
  EXPECT_NEAR(flash_point(MassFraction(0.10))->celsius(), 49, 1e-9);
  EXPECT_NEAR(flash_point(MassFraction(0.15))->celsius(), 42.5, 1e-9);
  EXPECT_NEAR(flash_point(MassFraction(1))->celsius(), 17, 1e-9);
}

}  // namespace

}  // namespace barm::drink

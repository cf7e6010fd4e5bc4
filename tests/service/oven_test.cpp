#include "service/oven.h"

#include <gmock/gmock.h>

#include "formula/read.h"
#include "service/fridge.h"
#include "service/mix.h"
#include "service/simmer.h"
#include "support/matchers.h"

namespace barm::service {

namespace {

using ::barm::test::FailsWith;
using ::barm::test::Holds;
using testing::Contains;
using testing::HasSubstr;

formula::Bake bake_with(const std::string& drink, const std::string& more = "") {
  const auto bake = formula::parse_bake(
      "pieces = 4\npiece = \"900 g\"\n[bowl]\n\"white bread flour\" = \"100 %\"\n\"" + drink +
          "\" = \"68 %\"\nsalt = \"2 %\"\n\"fresh yeast\" = \"2 %\"\n[[stage]]\ndo = \"bulk\"\n" +
          more,
      "b.toml");
  if (bake) return *bake;
  ADD_FAILURE() << bake.error().text();
  return {};
}

OvenRequest at(double celsius, double minutes, int loaves = 1) {
  OvenRequest request;
  request.said.set = {{Time{}, Temperature::from_celsius(celsius)}};
  request.said.bake = minutes * minute;
  request.said.loaves = loaves;
  return request;
}

TEST(OvenAnswered, SpeaksOfVapourTheLouderTheMoreThereIs) {
  const auto plain = oven(bake_with("water"), at(230, 40), {});
  ASSERT_THAT(plain, Holds());
  EXPECT_THAT(plain->cautions, testing::Not(Contains(HasSubstr("where people act"))));
  const auto strong = oven(bake_with("red wine"), at(230, 40, 4), {});
  ASSERT_THAT(strong, Holds());
  EXPECT_THAT(strong->cautions, Contains(HasSubstr("where people act")));
  EXPECT_THAT(strong->cautions, Contains(HasSubstr("The oven maker's and local rules hold")));
  EXPECT_THAT(strong->cautions, Contains(HasSubstr("under a quarter of the limit")));
  for (const std::string& caution : strong->cautions)
    EXPECT_EQ(caution.find("safe"), std::string::npos);
  EXPECT_GT(strong->ethanol, plain->ethanol);
  EXPECT_GT(strong->many.vapour.closed, strong->many.vapour.warn_from);
}

TEST(OvenAnswered, RefusesWhatCannotBe) {
  EXPECT_THAT(oven(bake_with("water"), at(900, 40), {}), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(oven(bake_with("water"), at(230, 0), {}), FailsWith(ErrorCode::bad_input));
  OvenRequest full = at(230, 40, 5);
  full.said.holds = 4;
  EXPECT_THAT(oven(bake_with("water"), full, {}), FailsWith(ErrorCode::bad_input));
}

TEST(OvenLeaves, TheOvensLossWhereTheFileTypesNone) {
  const std::string in_oven = "[oven]\nset = \"230 C\"\nbake = \"45 min\"\n";
  EXPECT_EQ(*oven_leaves(bake_with("water")), std::nullopt);
  const auto leaves = oven_leaves(bake_with("water", in_oven));
  ASSERT_THAT(leaves, Holds());
  EXPECT_GT((*leaves)->loss, 0.08);
  EXPECT_LT((*leaves)->loss, 0.25);
  EXPECT_EQ(with_loss(bake_with("water", in_oven), *leaves).bake_loss, (*leaves)->loss);
  formula::Bake typed = bake_with("water", in_oven);
  typed.bake_loss_given = true;
  EXPECT_EQ(with_loss(typed, *leaves).bake_loss, typed.bake_loss);
}

TEST(MixAnswered, AlcoholWarmsTheDoughAndTheRuleDoesNotKnow) {
  MixRequest request;
  request.dough = Temperature::from_celsius(24);
  const auto wet = mix(bake_with("water"), request);
  const auto spirited = mix(bake_with("neutral spirit"), request);
  ASSERT_THAT(wet, Holds());
  ASSERT_THAT(spirited, Holds());
  EXPECT_NEAR(wet->warmth.dough.celsius(), 24, 1e-6);
  EXPECT_NEAR(spirited->warmth.dough.celsius(), 24, 1e-6);
  EXPECT_NEAR(wet->warmth.by_mixing_alcohol.in(kelvin), 0, 0.05);
  ASSERT_TRUE(wet->by_factors);
  EXPECT_THAT(parse_mixer_reading("2min 21.5C"), Holds());
  EXPECT_THAT(parse_mixer_reading("warm"), FailsWith(ErrorCode::bad_input));
}

TEST(FridgeAnswered, SaysHowManyAtOnceAndRefusesAnOven) {
  const auto cold = fridge(bake_with("water"), {});
  ASSERT_THAT(cold, Holds());
  EXPECT_EQ(cold->request.pieces, 4);
  EXPECT_GE(cold->air_peak, cold->fridge.set.celsius());
  FridgeRequest hot;
  hot.set = Temperature::from_celsius(40);
  EXPECT_THAT(fridge(bake_with("water"), hot), FailsWith(ErrorCode::bad_input));
}

TEST(SimmerAnswered, NamesTheFlameAndWhatStays) {
  const auto until = parse_until("60 %");
  ASSERT_THAT(until, Holds());
  const auto wine = simmer({"red wine", {}, *until});
  ASSERT_THAT(wine, Holds());
  EXPECT_THAT(wine->cautions, Contains(HasSubstr("without a flame")));
  EXPECT_LT(wine->after.alcohol, 0.2 * wine->before.alcohol);
  EXPECT_NEAR(wine->after.sugar.si(), wine->before.sugar.si(), 1e-9);
  EXPECT_THAT(simmer({"red wne", {}, *until}), FailsWith(ErrorCode::not_found));
  EXPECT_THAT(simmer({"salt", {}, *until}), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(parse_until("120 %"), FailsWith(ErrorCode::bad_input));
}

}  // namespace

}  // namespace barm::service

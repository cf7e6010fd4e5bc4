#include "service/oven/oven.h"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <cmath>
#include <fstream>
#include <iterator>

#include "formula/read.h"
#include "service/bake/foresee.h"
#include "service/bake/head.h"
#include "service/bake/mix.h"
#include "service/house/fridge.h"
#include "service/oven/simmer.h"
#include "service/oven/words.h"
#include "service/shop/till.h"
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

const std::string timed_oven =
    "[oven]\nset = [\"250 C\", \"15 min 220 C\"]\nbake = \"45 min\"\nsteam = \"10 min\"\n";
const std::string open_oven = "[oven]\nset = \"230 C\"\n";

forecast::Options few() {
  forecast::Options options;
  options.draws = 40;
  return options;
}

TEST(OvenAnswered, BakesUntilTheCoreIsDoneWhereNobodySaidHowLong) {
  const auto done = oven(bake_with("water", open_oven), {}, {});
  ASSERT_THAT(done, Holds());
  EXPECT_FALSE(done->typed);
  EXPECT_NEAR(done->many.core.p50, 96, 1.5);
  EXPECT_NEAR(done->in_oven().p50, done->lasts.si(), 120);
  EXPECT_LT(done->in_oven().p10, done->in_oven().p90);
  formula::Bake rolls = bake_with("water", open_oven);
  rolls.pieces = 40;
  rolls.piece = 90.0 * gram;
  const auto roll = oven(rolls, {}, {});
  ASSERT_THAT(roll, Holds());
  EXPECT_LT(roll->lasts, 0.6 * done->lasts);
}

TEST(OvenAnswered, SaysThatALoafIsNeverDoneInACoolOven) {
  formula::Bake large = bake_with("water", "[oven]\nset = \"100 C\"\ncavity = \"200 L\"\n");
  large.pieces = 1;
  large.piece = 6.0 * kilogram;
  EXPECT_THAT(oven(large, {}, {}), FailsWith(ErrorCode::bad_input));
}

// One answer everywhere: head, forecast, counting back, till, label, day.
TEST(OneOven, TheTimelineHasItsStagesBehindTheDough) {
  const formula::Bake bake = bake_with("water", timed_oven);
  const auto seen = service::foresee(bake, few());
  ASSERT_THAT(seen, Holds());
  const forecast::Timeline& timeline = seen->forecast.timeline;
  ASSERT_TRUE(seen->oven);
  ASSERT_FALSE(timeline.bread.empty());
  EXPECT_NEAR((*timeline.bread.front().out.p50 - *timeline.oven.p50).in(minute), 45, 1e-6);
  EXPECT_GT(*timeline.bread.front().cut.p50, *timeline.bread.front().out.p50 + 0.5 * hour);
  EXPECT_GT(*timeline.bread.front().bag.p50, *timeline.bread.front().cut.p50);
  EXPECT_EQ(timeline.stages.back().step, formula::Step::cooling);
  const Head head = head_of(timeline, bake, {}, std::nullopt);
  EXPECT_THAT(head.next_words, HasSubstr("into the oven"));
  EXPECT_THAT(head.then_words, HasSubstr("out of the oven"));
  const auto without = service::foresee(bake_with("water"), few());
  ASSERT_THAT(without, Holds());
  EXPECT_FALSE(without->oven);
  EXPECT_TRUE(without->forecast.timeline.bread.empty());
}

TEST(OneOven, EveryAnswerHasTheSameMinutesCoreAndLoss) {
  const formula::Bake bake = bake_with("stout", open_oven);
  const auto asked = oven(bake, {}, {});
  const auto seen = service::foresee(bake, few());
  const auto leaves = oven_leaves(bake);
  ASSERT_THAT(asked, Holds());
  ASSERT_THAT(seen, Holds());
  ASSERT_THAT(leaves, Holds());
  EXPECT_EQ(seen->oven->in_oven().p50, asked->in_oven().p50);
  EXPECT_EQ(seen->oven->many.core.p10, asked->many.core.p10);
  EXPECT_EQ((*leaves)->lasts.si(), asked->in_oven().p50);
  EXPECT_EQ((*leaves)->loss, asked->many.loss.p50 + asked->many.cooling_loss);
}

// kWh of a load: power * duty * hours in the oven, docs/price-file.md; the price file's 42 min are
// not asked.
TEST(OneOven, TheTillsOvenRunsAsLongAsTheLoafTakesInIt) {
  std::ifstream file(BARM_ROOT "/examples/mead-loaf.toml");
  const std::string mead{std::istreambuf_iterator<char>(file), {}};
  const auto bake = formula::parse_bake(mead + open_oven, "mead.toml");
  ASSERT_THAT(bake, Holds());
  const auto request = till_request(BARM_ROOT "/examples/marsh-prices.toml", {});
  ASSERT_THAT(request, Holds());
  const auto sums = till(*bake, *request);
  const auto baked = its_oven(*bake);
  ASSERT_THAT(sums, Holds());
  ASSERT_THAT(baked, Holds());
  const double hours = (*baked)->in_oven().p50 / 3600;
  EXPECT_NEAR(sums->prices.oven->bake.in(hour), hours, 1e-9);
  EXPECT_GT(std::abs(hours - 0.7), 0.02);
  const shop::Oven& oven = *sums->prices.oven;
  EXPECT_EQ(sums->costing.load,
            oven.per_kilowatt_hour.scaled(oven.kilowatts * oven.duty * oven.bake.in(hour)));
  EXPECT_THAT(sums->doubts, Contains(HasSubstr("worked out from the bake's [oven]")));
}

TEST(OneOven, TheTillSaysWhatAUsualOvenTakesBesideThePriceFilesMinutes) {
  const auto bake = formula::read_bake(BARM_ROOT "/examples/mead-loaf.toml");
  ASSERT_THAT(bake, Holds());
  const auto request = till_request(BARM_ROOT "/examples/marsh-prices.toml", {});
  ASSERT_THAT(request, Holds());
  const auto sums = till(*bake, *request);
  const auto asked = oven(*bake, {}, {});
  ASSERT_THAT(sums, Holds());
  ASSERT_THAT(asked, Holds());
  EXPECT_EQ(sums->prices.oven->bake.in(minute), 42);
  EXPECT_THAT(sums->doubts,
              Contains(HasSubstr(fmt::format("about {:.0f} min", asked->in_oven().p50 / 60))));
}

TEST(FurtherLoads, GoInOneAfterTheOtherAndProveMeanwhile) {
  const std::string proof =
      "[[stage]]\ndo = \"shape\"\n[[stage]]\ndo = \"proof\"\nfor = \"30 min\"\n";
  const formula::Bake bake =
      bake_with("water", proof + timed_oven + "loaves = 2\n");  // of four pieces
  const auto seen = service::foresee(bake, few());
  ASSERT_THAT(seen, Holds());
  const auto& oven = *seen->oven;
  ASSERT_EQ(oven.further.size(), 1U);
  EXPECT_EQ(oven.further[0].loaves, 2);
  EXPECT_NEAR(oven.further[0].waited.in(minute), 50, 1e-9);
  EXPECT_LT(oven.further[0].loaf.room, oven.loaf.room) << "it proved on";
  EXPECT_GT(oven.further[0].loaf.gas, oven.loaf.gas);
  EXPECT_LT(oven.further[0].room.p50, oven.room.p50);
  const auto& stages = seen->forecast.timeline.stages;
  ASSERT_EQ(stages.back().load, 2);
  const auto& in = stages[stages.size() - 2];
  EXPECT_NEAR((*in.begin.p50 - *seen->forecast.timeline.oven.p50).in(minute), 50, 1e-6);
  EXPECT_NEAR((*in.end.p50 - *in.begin.p50).in(minute), 45, 1e-6);
  EXPECT_THAT(as_it_goes_in(oven, 2), HasSubstr("2 loaves, 50 min longer in its last place: "));
  EXPECT_EQ(as_it_goes_in(oven, 3), "");
}

TEST(FurtherLoads, AreToldAsRangesAndEachProvesOnBehindTheOneBefore) {
  const auto proved = [](const std::string& time, const std::string& loaves) {
    return oven(bake_with("water",
                          "until = \"1.4 times\"\n[[stage]]\ndo = \"shape\"\n[[stage]]\n"
                          "do = \"proof\"\nfor = \"" +
                              time + "\"\ntemperature = \"20 C\"\n" + timed_oven +
                              "loaves = " + loaves + "\n"),
                {},
                {});
  };
  const auto two = proved("10 min", "2");
  ASSERT_THAT(two, Holds());
  ASSERT_EQ(two->further.size(), 1U);
  const FurtherLoad& second = two->further.front();
  EXPECT_LT(second.room.p50, two->room.p50);
  for (const oven::Range& r : {two->room, two->rise, second.room, second.rise}) {
    EXPECT_LT(r.p10, r.p50);
    EXPECT_LT(r.p50, r.p90);
  }

  // The dough that waits is one that was left for as long in its proof.
  const auto proved_on = proved("60 min", "4");
  ASSERT_THAT(proved_on, Holds());
  EXPECT_NEAR(second.waited.in(minute), 50, 1e-9);
  EXPECT_NEAR(second.loaf.gas, proved_on->loaf.gas, 2e-3);
  EXPECT_NEAR(second.room.p10, proved_on->room.p10, 5e-3);
  EXPECT_NEAR(second.room.p90, proved_on->room.p90, 5e-3);
  // And it springs alike, though scaled from the first load's and not laid anew.
  EXPECT_NEAR(second.rise.p10, proved_on->rise.p10, 0.03);
  EXPECT_NEAR(second.rise.p50, proved_on->rise.p50, 0.03);
  EXPECT_NEAR(second.rise.p90, proved_on->rise.p90, 0.03);
}

// 3 kW under six loaves at once: its walls cannot come back within five minutes.
TEST(FurtherLoads, FindAnOvenThatHasCooledWhereItsPowerIsKnown) {
  const auto baked = [](const std::string& oven_lines, int pieces) {
    formula::Bake bake = bake_with("water", oven_lines);
    bake.pieces = pieces;
    return service::oven(bake, {}, few());
  };
  const std::string falling = "[oven]\nset = [\"250 C\", \"15 min 210 C\"]\nloaves = 6\n";
  const auto known = baked(falling + "power = \"3 kW\"\n", 12);
  ASSERT_THAT(known, Holds());
  ASSERT_EQ(known->further.size(), 1U);
  const FurtherLoad& second = known->further.front();
  EXPECT_LT(second.oven_has.celsius(), 245);
  EXPECT_GT(second.oven_has.celsius(), 150);
  EXPECT_GT(second.longer, 0.9 * minute);
  EXPECT_THAT(as_it_goes_in(*known, 2), HasSubstr("of its 250 °C by then"));
  EXPECT_THAT(as_it_goes_in(*known, 2), HasSubstr("min longer"));
  const auto hours = hours_of(*known);
  ASSERT_EQ(hours.longer.size(), 1U);
  EXPECT_NEAR(hours.longer.front(), second.longer.in(hour), 1e-12);
  // A strong one is back, and one of which nobody knows is taken to be.
  const auto strong = baked(falling + "power = \"40 kW\"\n", 12);
  ASSERT_THAT(strong, Holds());
  EXPECT_GT(strong->further.front().oven_has.celsius(), 247);
  const auto unknown = baked(falling, 12);
  ASSERT_THAT(unknown, Holds());
  EXPECT_NEAR(unknown->further.front().oven_has.celsius(), 250, 1e-9);
  EXPECT_EQ(unknown->further.front().longer, Time{});
  EXPECT_THAT(unknown->assumed, Contains(HasSubstr("as hot for each load as for the first")));
}

TEST(FurtherLoads, ThereAreNoneWhereAllFitOrNobodySaidHowMany) {
  const auto fits = oven(bake_with("water", timed_oven + "loaves = 4\n"), {}, {});
  ASSERT_THAT(fits, Holds());
  EXPECT_TRUE(fits->further.empty());
  const auto unsaid = oven(bake_with("water", timed_oven), {}, {});
  ASSERT_THAT(unsaid, Holds());
  EXPECT_TRUE(unsaid->further.empty());
  const auto holds = oven(bake_with("water", timed_oven + "holds = 3\n"), {}, {});
  ASSERT_THAT(holds, Holds());
  EXPECT_EQ(holds->oven.loaves, 3);
  ASSERT_EQ(holds->further.size(), 1U);
  EXPECT_EQ(holds->further[0].loaves, 1);
  formula::Bake rolls = bake_with("water", timed_oven + "loaves = 1\n");
  rolls.pieces = 400;
  rolls.piece = 90.0 * gram;
  const auto many = oven(rolls, {}, {});
  ASSERT_THAT(many, Holds());
  EXPECT_THAT(many->assumed, Contains("only the first 12 of 400 loads are told"));
}

TEST(OneOven, WordsAreShortAndNameTheVapourWhereItMatters) {
  const auto strong = oven(bake_with("red wine", timed_oven), {}, {});
  ASSERT_THAT(strong, Holds());
  EXPECT_EQ(how_to_load(*strong), "250 °C, from 15 min on 220 °C, steam for 10 min");
  EXPECT_EQ(how_long(*strong), "45 min");
  EXPECT_THAT(as_it_comes_out(*strong), testing::StartsWith("core "));
  EXPECT_THAT(vapour_in_short(*strong), HasSubstr("The oven maker's and local rules hold"));
  const auto plain = oven(bake_with("water", timed_oven), {}, {});
  ASSERT_THAT(plain, Holds());
  EXPECT_EQ(vapour_in_short(*plain).find("safe"), std::string::npos);
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
  EXPECT_EQ(wet->no_rule, "");
  request.flour = request.room = Temperature::from_celsius(32);
  request.dough = Temperature::from_celsius(20);
  const auto iced = mix(bake_with("water"), request);
  ASSERT_THAT(iced, Holds());
  EXPECT_GT(iced->liquid.ice.in(gram), 0);
  EXPECT_FALSE(iced->by_factors);
  EXPECT_THAT(iced->no_rule, HasSubstr("the water would have to be at "));
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

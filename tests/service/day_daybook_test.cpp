// A day of bakes of the daybook: doughs under way with their readings, the plan that is kept, and
// what follows from it.
#include <gmock/gmock.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "service/day/day.h"
#include "service/day/hours.h"
#include "service/day/laid_day.h"
#include "service/day/under_way.h"
#include "service/daybook/daybook.h"
#include "service/in_daybook.h"
#include "support/in_central_europe.h"

namespace barm::service {

namespace {

using barm::test::Holds;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Key;
using testing::Not;
using testing::Pair;

// Six loaves, half of the liquid mead; stages: mix 0, bulk 1, fold 2, divide 3, shape 4, proof 5.
const char* const six_mead_loaves = R"(name = "Mead"
pieces = 6
piece = "900 g"

[bowl]
"white bread flour" = "100 %"
liquid = "70 %"
"dry mead" = "50 % of the liquid"
water = "50 % of the liquid"
salt = "2 %"
levain = "20 %"

[levain]
starter = "stiff ripe levain"
flour = "white bread flour"
temperature = "26 C"
since_feeding = "5 h"

[[stage]]
do = "mix"

[[stage]]
do = "bulk"
temperature = "24 C"
until = "doubled"

[[stage]]
do = "fold"
after = "1 h"

[[stage]]
do = "divide"

[[stage]]
do = "shape"

[[stage]]
do = "proof"
temperature = "24 C"
for = "2 h"
)";

std::string text_of_day(const std::string& begins,
                        const std::string& bread,
                        const std::string& more) {
  return "name = \"S\"\nbegins = " + begins + "\nbread = " + bread +
         "\n[house]\nhands = 2\ndecks = 2\nfridge = 12\n[[bake]]\nfile = \"mead\"\n" + more;
}

class DayInDaybook : public barm::test::InDaybook {
 protected:
  void bake(const std::string& state, std::optional<time::Instant> mixed) {
    storage::Bake bake;
    bake.id = "mead";
    bake.toml = six_mead_loaves;
    bake.state = state;
    bake.mixed_at = mixed;
    ASSERT_THAT(save_bake(*daybook_, bake, now_), Holds());
  }

  void reading(double hours, double ratio) {
    storage::ReadingRecord one;
    one.bake = "mead";
    one.at = mixed_ + static_cast<std::int64_t>(3600 * hours);
    one.ratio = ratio;
    ASSERT_THAT(daybook_->save(one, now_.at), Holds());
  }

  void divided_after(double hours) {
    mark("mead", "divide", 3, mixed_ + static_cast<std::int64_t>(3600 * hours));
  }

  Result<DayFile> read(const std::string& text) {
    return parse_day(text, "day", now_.zone, [&](const std::string& name, const auto&) {
      return known_bake(*daybook_, name, now_);
    });
  }

  DayFile later_today() {
    return read(text_of_day("2026-11-28T12:00:00", "2026-11-29T10:00:00", "")).value();
  }

  static DayRequest quick() {
    DayRequest out;
    out.draws = 60;
    out.fresh_draws = 100;
    return out;
  }

  barm::test::InCentralEurope in_europe_;
  time::Instant mixed_ = now_.at - 5 * 3600;  // 7 o'clock
};

double median_ready(const DayFile& day) {
  forecast::Options options;
  options.draws = 200;
  auto draws = dough_draws(day.bakes.front(), {}, options).value().ready;
  std::nth_element(draws.begin(), draws.begin() + 100, draws.end());
  return static_cast<double>(draws[100]);
}

TEST_F(DayInDaybook, ADoughUnderWayTakesPartWithWhatIsDone) {
  bake("live", mixed_);
  const DayFile day = later_today();
  // Nobody ticked the fold off, and its time is long past: it is let go.
  EXPECT_THAT(
      day.bakes.front().done,
      ElementsAre(
          Pair("feed", mixed_ - 5 * 3600), Pair("fold", mixed_ + 3600), Pair("mix", mixed_)));
  const DayAnswer answer = plan_day(day, quick()).value();
  ASSERT_TRUE(answer.planned) << testing::PrintToString(answer.why_not);
  EXPECT_EQ(
      std::count_if(
          answer.steps.begin(), answer.steps.end(), [](const DayStep& step) { return step.begun; }),
      3);
  EXPECT_THAT(answer.lists.weighings, IsEmpty());
  EXPECT_THAT(answer.lists.feedings, IsEmpty());
}

TEST_F(DayInDaybook, WhatWasTickedOffHasBegunAndWhatLiesBeforeItToo) {
  bake("live", mixed_);
  divided_after(4.5);
  const DayFile day = later_today();
  EXPECT_THAT(day.bakes.front().done, Contains(Pair("divide", mixed_ + 16200)));
  EXPECT_THAT(day.bakes.front().done, Not(Contains(Key("shape"))));
}

TEST_F(DayInDaybook, ReadingsMoveTheHoursOfADoughUnderWay) {
  bake("live", mixed_);
  const double unread = median_ready(later_today());
  reading(0.1, 1.0);
  reading(4.8, 1.85);
  const double fast = median_ready(later_today());
  // Risen by 85 % after 4 h 48: doubled within the hour or so, by whatever model.
  EXPECT_LT(fast, unread);
  EXPECT_GT(fast, 60 * 4.8);
  EXPECT_LT(fast, 60 * 7.0);
}

TEST_F(DayInDaybook, ReadingsAreInWhatADayIsMadeFrom) {
  bake("live", mixed_);
  const std::string before = later_today().bakes.front().made_from;
  EXPECT_EQ(later_today().bakes.front().made_from, before);
  reading(4.8, 1.85);
  EXPECT_NE(later_today().bakes.front().made_from, before);
}

TEST_F(DayInDaybook, TheListsAreOfTheLoavesOfTheDay) {
  bake("planned", std::nullopt);
  const DayFile day =
      read(text_of_day("2026-11-28T12:00:00", "2026-11-29T18:00:00", "loaves = 12\n")).value();
  DayRequest request = quick();
  storage::Bottle bottle;
  bottle.ingredient = "dry mead";
  bottle.size_mL = 750;
  bottle.whole_bottles = 1;
  request.shelf = {bottle};
  const DayAnswer answer = plan_day(day, request).value();
  ASSERT_TRUE(answer.planned);
  const auto bowl = service::bowl(day.bakes.front().bake).value();
  ASSERT_EQ(answer.lists.weighings.size(), 1U);
  const DayWeighing& weighing = answer.lists.weighings.front();
  ASSERT_EQ(weighing.lines.size(), bowl.bowl.lines.size());
  for (std::size_t i = 0; i < weighing.lines.size(); ++i)
    EXPECT_NEAR(weighing.lines[i].mass.in(gram), 2 * bowl.bowl.lines[i].plan.in(gram), 1e-6);
  // It is fed and weighed when its steps are.
  for (const DayStep& step : answer.steps) {
    if (step.what == "mix") {
      EXPECT_EQ(step.begins, weighing.at);
    }
    if (step.what == "feed") {
      EXPECT_EQ(step.begins, answer.lists.feedings.front().at);
    }
  }
  // Some two litres of mead for twelve loaves; one bottle is there.
  ASSERT_TRUE(answer.lists.buy);
  EXPECT_THAT(*answer.lists.buy, ElementsAre(AllOf(HasSubstr("dry mead"), HasSubstr("750 mL"))));
}

TEST_F(DayInDaybook, ThePlanTheHouseGoesByStandsOnToday) {
  bake("planned", std::nullopt);
  const std::string text = text_of_day("2026-11-28T12:00:00", "2026-11-29T18:00:00", "");
  const DayAnswer answer = plan_day(read(text).value(), quick()).value();
  ASSERT_TRUE(answer.planned);
  EXPECT_FALSE(today(*daybook_, now_)->day);
  ASSERT_THAT(keep_day(*daybook_, text, answer, now_), Holds());
  ASSERT_THAT(keep_day(*daybook_, text, answer, now_), Holds());
  const auto seen = today(*daybook_, now_);
  ASSERT_TRUE(seen->day);
  ASSERT_FALSE(seen->day->next.empty());
  EXPECT_EQ(seen->day->next.front().step, answer.steps.front().what);
  EXPECT_EQ(seen->day->next.front().begins, answer.steps.front().begins);
  // Also where one was thrown away before.
  ASSERT_THAT(daybook_->remove(storage::Kind::setting, "day-plan", 0, now_.at), Holds());
  EXPECT_FALSE(*kept_day(*daybook_, now_));
  ASSERT_THAT(keep_day(*daybook_, text, answer, now_), Holds());
  Now later = now_;
  later.at = answer.steps[2].begins;
  EXPECT_THAT((*kept_day(*daybook_, later))->next.front().begins,
              testing::Ge(answer.steps[1].begins));
  later.at = answer.bread + 1;
  EXPECT_FALSE(*kept_day(*daybook_, later));
}

// Mixed at seven, divided towards five by the plan; a reading at noon that says it has trebled
// moves the dividing to where the dough still is at its best, and Today says so; without one
// nothing is said.
TEST_F(DayInDaybook, AReadingThatComesInLaysTheKeptPlanAnew) {
  bake("live", mixed_);
  const std::string text = text_of_day("2026-11-28T12:00:00", "2026-11-29T10:00:00", "");
  const DayAnswer answer = plan_day(read(text).value(), quick()).value();
  ASSERT_TRUE(answer.planned) << testing::PrintToString(answer.why_not);
  ASSERT_THAT(keep_day(*daybook_, text, answer, now_), Holds());
  EXPECT_THAT((*kept_day(*daybook_, now_))->anew, IsEmpty());
  const auto divide = [&](const KeptDay& day) {
    for (const KeptStep& step : day.next)
      if (step.step == "divide") return step.begins;
    return time::Instant{};
  };
  const time::Instant before = divide(**kept_day(*daybook_, now_));
  reading(0.1, 1.0);
  reading(2.5, 1.9);
  reading(4.9, 3.2);
  const auto after = *kept_day(*daybook_, now_);
  EXPECT_LT(divide(*after), before);
  EXPECT_THAT(after->anew, Contains(HasSubstr("Moved: divide of the Mead from")));
  // Asked again it is not worked out again, and says the same.
  EXPECT_EQ((*kept_day(*daybook_, now_))->anew, after->anew);
  EXPECT_EQ(today(*daybook_, now_)->day->anew, after->anew);
}

TEST_F(DayInDaybook, AStepTickedLateMovesWhatComesAfterIt) {
  bake("live", mixed_);
  const std::string text = text_of_day("2026-11-28T12:00:00", "2026-11-29T10:00:00", "");
  const DayAnswer answer = plan_day(read(text).value(), quick()).value();
  ASSERT_TRUE(answer.planned);
  ASSERT_THAT(keep_day(*daybook_, text, answer, now_), Holds());
  const auto planned = std::find_if(answer.steps.begin(),
                                    answer.steps.end(),
                                    [](const DayStep& step) { return step.what == "divide"; });
  ASSERT_NE(planned, answer.steps.end());
  Now later = now_;
  later.at = planned->begins + 5400;
  mark("mead", "divide", 3, later.at - 300);
  const auto day = *kept_day(*daybook_, later);
  ASSERT_TRUE(day);
  EXPECT_THAT(day->anew, Contains(HasSubstr("Moved: shape of the Mead")));
  for (const KeptStep& step : day->next) {
    EXPECT_NE(step.step, "divide");
    EXPECT_GE(step.begins, later.at - 300);
  }
}

/// When the plan divides; nothing where it does not.
std::optional<time::Instant> divided(const std::vector<DayStep>& steps) {
  for (const DayStep& step : steps)
    if (step.what == "divide") return step.begins;
  return std::nullopt;
}

// The plan as it was kept until something comes in; then the one that Today shows, whole. Who stays
// with the one kept hears nothing more until something else comes in; who takes the new one goes by
// it.
TEST_F(DayInDaybook, AKeptPlanIsToldWholeAndTakenOrLeft) {
  bake("live", mixed_);
  EXPECT_EQ(day_again(*daybook_, now_, quick()).error().code, ErrorCode::not_found);
  const std::string text = text_of_day("2026-11-28T12:00:00", "2026-11-29T10:00:00", "");
  const DayAnswer answer = plan_day(read(text).value(), DayRequest{}).value();
  ASSERT_TRUE(answer.planned);
  ASSERT_THAT(keep_day(*daybook_, text, answer, now_), Holds());
  DayAgain again = day_again(*daybook_, now_, quick()).value();
  EXPECT_THAT(again.told, IsEmpty());
  EXPECT_EQ(divided(again.day->steps), divided(answer.steps));

  reading(0.1, 1.0);
  reading(2.5, 1.9);
  reading(4.9, 3.2);
  again = day_again(*daybook_, now_, quick()).value();
  EXPECT_EQ(again.told, (*kept_day(*daybook_, now_))->anew);
  ASSERT_TRUE(again.day);
  EXPECT_LT(divided(again.day->steps), divided(answer.steps));
  EXPECT_NE(again.made_from, answer.made_from);

  ASSERT_THAT(stay_with_kept(*daybook_, now_), Holds());
  EXPECT_THAT((*kept_day(*daybook_, now_))->anew, IsEmpty());
  reading(4.95, 3.3);
  again = day_again(*daybook_, now_, quick()).value();
  EXPECT_THAT(again.told, Contains(HasSubstr("Moved: divide of the Mead from")));
  ASSERT_TRUE(again.day);
  ASSERT_THAT(keep_day(*daybook_, again.text, *again.day, now_), Holds());
  EXPECT_THAT((*kept_day(*daybook_, now_))->anew, IsEmpty());
  EXPECT_EQ(divided(day_again(*daybook_, now_, quick())->day->steps), divided(again.day->steps));
}

TEST_F(DayInDaybook, AKeptPlanOfABakeThatIsGoneSaysSo) {
  bake("planned", std::nullopt);
  const std::string text = text_of_day("2026-11-28T12:00:00", "2026-11-29T18:00:00", "");
  ASSERT_THAT(keep_day(*daybook_, text, plan_day(read(text).value(), quick()).value(), now_),
              Holds());
  ASSERT_THAT(daybook_->remove(storage::Kind::bake, "mead", 0, now_.at), Holds());
  const DayAgain again = day_again(*daybook_, now_, quick()).value();
  EXPECT_FALSE(again.day);
  EXPECT_THAT(again.told, Contains(HasSubstr("cannot be held")));
  EXPECT_EQ(stay_with_kept(*daybook_, now_).error().code, ErrorCode::cannot_be_met);
}

// A plan that is told is the plan: no other is sought, and a step of it moves by its own ways.
TEST_F(DayInDaybook, ADayIsLaidAsItIsTold) {
  bake("planned", std::nullopt);
  const DayFile day = read(text_of_day("2026-11-28T12:00:00",
                                       "2026-11-29T20:00:00",
                                       "or = [{ fridge = \"8 h to 12 h\" }]\n"))
                          .value();
  DayRequest request = quick();
  const DayAnswer first = plan_day(day, request).value();
  ASSERT_TRUE(first.planned);
  // One step five minutes earlier or later, where that can be.
  auto later = plan_day(day, request);
  bool shifted = false;
  for (std::size_t i = 0; i < first.plan.front().begins.size() && !shifted; ++i) {
    for (const std::int64_t by : {-300, 300}) {
      if (shifted) break;
      request.from = first.plan;
      request.from.front().begins[i] = first.plan.front().begins[i] + by;
      later = plan_day(day, request);
      shifted = later.has_value();
    }
  }
  ASSERT_TRUE(shifted);
  EXPECT_EQ(later->plan.front().begins, request.from.front().begins);
  EXPECT_EQ(later->chance->draws, first.chance->draws);
  request.from.front().way = "no way";
  EXPECT_EQ(plan_day(day, request).error().where, "from");
}

TEST_F(DayInDaybook, AKeptPlanThatIsNoneIsNone) {
  for (const char* value : {"", "7", "{}", R"({"answer":7})", R"({"answer":{"bread":"x"}})"}) {
    storage::Setting setting;
    setting.id = "day-plan";
    const auto before = daybook_->get<storage::Setting>("day-plan");
    if (before) setting.revision = before->revision;
    setting.value = value;
    ASSERT_THAT(daybook_->save(setting, now_.at), Holds());
    EXPECT_FALSE(*kept_day(*daybook_, now_)) << value;
  }
}

TEST_F(DayInDaybook, AMoveStartsFromThePlanThatIsToldBack) {
  bake("planned", std::nullopt);
  const DayFile day = read(text_of_day("2026-11-28T12:00:00", "2026-11-29T18:00:00", "")).value();
  DayRequest request = quick();
  const LaidDay laid = lay_day(day, request).value();
  const DayAnswer first = day_answer(laid, request).value();
  ASSERT_TRUE(first.planned);
  // The bread out of the oven five minutes earlier or later: one of the two can be.
  const auto unload = std::find_if(
      first.steps.begin(), first.steps.end(), [](const auto& step) { return step.what == "load"; });
  ASSERT_NE(unload, first.steps.end());
  DayAnswer second;
  for (const std::int64_t by : {-300, 300}) {
    request.from = first.plan;
    request.move = {
        {unload->bake, unload->what, day.zone.local(unload->begins + by).text().substr(0, 16)}};
    second = day_answer(laid, request).value();
    if (!second.refused) break;
  }
  ASSERT_FALSE(second.refused) << testing::PrintToString(second.moved);
  request.from = second.plan;
  request.move = {};
  EXPECT_EQ(day_answer(laid, request)->plan.front().begins, second.plan.front().begins);
  request.from.front().begins.back() = request.from.front().begins.front();
  EXPECT_EQ(day_answer(laid, request).error().where, "from");
}

}  // namespace

}  // namespace barm::service

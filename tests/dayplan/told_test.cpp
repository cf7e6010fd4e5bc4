#include "dayplan/told.h"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include "dayplan/bounds.h"
#include "dayplan/move.h"
#include "days.h"

namespace barm::dayplan {

namespace {

using testing::AnyOf;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

std::string clock(Minutes at) { return fmt::format("{}:{:02}", at / 60, at % 60); }

Bake sure_loaf(const std::string& name, bool chilled) {
  numerics::Random random(1);
  Hours sure;
  sure.doubt = 0;
  return {name, saturday_at_eight, {way("", sure, chilled, random, 1)}};
}

std::vector<std::string> told(const Day& day) {
  const auto planned = plan(day);
  EXPECT_FALSE(planned->plan);
  return why_not(day, *planned, clock);
}

TEST(ADayWithoutPlan, NamesTheBakeThatTakesTooLong) {
  Day day{marsh_house(), {sure_loaf("mead loaf", true), sure_loaf("stout loaf", false)}, 5};
  day.bakes[0].wanted = 20 * an_hour;
  day.house[hands].closed.clear();
  // 6 h levain, 5 h bulk, 35 min, 8 h cold, 45 min oven, 2 h cooling: 22 h 20.
  EXPECT_THAT(told(day),
              Contains(AllOf(HasSubstr("mead loaf"), HasSubstr("22 h 20"), HasSubstr("20 h 00"))));
  EXPECT_THAT(told(day), Contains(HasSubstr("4 h later")));
  EXPECT_THAT(told(day), Not(Contains(HasSubstr("stout"))));
}

TEST(ADayWithoutPlan, NamesTheNight) {
  Day day{marsh_house(), {sure_loaf("perry loaf", false)}, 5};
  // In the window in which it could be mixed and baked nobody is up.
  day.house[hands].closed = {{0, 9 * an_hour}, {20 * an_hour, 37 * an_hour}};
  EXPECT_THAT(told(day), Contains(HasSubstr("the nights and days of rest worked through")));
}

TEST(ADayWithoutPlan, NamesTheNightThatLeavesNoHourToWork) {
  Day day{marsh_house(), {sure_loaf("perry loaf", false)}, 5};
  day.house[hands].closed = {{0, 2 * 24 * an_hour}};
  EXPECT_THAT(told(day), Contains(HasSubstr("perry loaf")));
}

TEST(ADayWithoutPlan, NamesThePlaceThatIsTooFew) {
  // Three bakes of two loaves each through a fridge of four places in the one night there is.
  Day day{marsh_house(4), {}, 5};
  day.house[hands].closed.front() = {0, 10 * an_hour};
  day.house[fridge].capacity = 4;
  day.house[deck].capacity = 3;
  for (const char* name : {"mead loaf", "stout loaf", "perry loaf"})
    day.bakes.push_back(sure_loaf(name, true));
  const auto lines = told(day);
  EXPECT_THAT(
      lines,
      Contains(AllOf(HasSubstr("mead loaf"), HasSubstr("stout loaf"), HasSubstr("perry loaf"))));
  EXPECT_THAT(lines, Contains("It would go with two more places in the fridge."));
  EXPECT_THAT(lines, Not(Contains(HasSubstr("more deck"))));
}

TEST(ADayWithAPlan, SaysWhereBakesWouldMeet) {
  Day day{marsh_house(1), {sure_loaf("mead loaf", false), sure_loaf("stout loaf", false)}, 5};
  const auto planned = plan(day);
  ASSERT_TRUE(planned->plan);
  EXPECT_THAT(collisions(day, *planned, clock),
              Contains(AllOf(
                  HasSubstr("mead loaf"), HasSubstr("2 pairs of hands"), HasSubstr("there is 1"))));
  day.bakes.pop_back();
  EXPECT_THAT(collisions(day, *plan(day), clock), IsEmpty());
}

TEST(AMovedStep, SaysInWordsWhatItBreaks) {
  Day day{marsh_house(1), {sure_loaf("mead loaf", false)}, 5};
  const Plan made = *plan(day)->plan;
  const Moved moved = move(day, made, {0, 3}, made[0].begin[3] + 10 * an_hour);
  ASSERT_FALSE(moved.plan);
  Plan asked = made;
  asked[0].begin[3] += 10 * an_hour;
  for (const Fault& fault : moved.broken)
    EXPECT_THAT(say(day, asked, fault, clock), HasSubstr("of the mead loaf at "));
}

TEST(TheBoundsOfAStep, AreThoseOfTheLastAndTheFirstPlanThereIs) {
  const Day day{marsh_house(), {sure_loaf("mead loaf", true)}, 5};
  const auto could = bounds(day, 0, 0);
  ASSERT_TRUE(could);
  // Unloaded two hours before eight at the latest, loaded 45 to 55 min before that.
  EXPECT_EQ(could->latest[7], 36 * an_hour);
  EXPECT_EQ(could->latest[6], 35 * an_hour + 15);
  // Each bound can be had: pinned there, the rest finds its place.
  for (std::size_t i = 0; i < could->latest.size(); ++i) {
    for (const Minutes at : {could->earliest[i], could->latest[i]}) {
      Effort effort;
      effort.to_the_end = true;
      EXPECT_TRUE(plan(day, {{{0, i}, at}}, effort)->plan) << i << " at " << at;
    }
    EXPECT_FALSE(plan(day, {{{0, i}, could->latest[i] + 5}})->plan);
  }
}

}  // namespace

}  // namespace barm::dayplan

#include "dayplan/check.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "days.h"

namespace barm::dayplan {

namespace {

using Kind = Fault::Kind;

/// One loaf, every length known.
Day plain_day() {
  Day day{marsh_house(1), {}, 5};
  numerics::Random random(1);
  Hours sure;
  sure.doubt = 0;
  day.bakes.push_back({"loaf", saturday_at_eight, {way("at room", sure, false, random, 1)}});
  return day;
}

/// Fri 10:00 fed, 16:05 mixed, … oven at Sat 00:00: nobody is up then, so all an hour and more
/// later.
Plan a_plan() {
  const Minutes fed = 14 * an_hour;
  return {{0, {fed, fed + 365, fed + 400, fed + 670, fed + 695, fed + 710, fed + 835, fed + 885}}};
}

bool has(const std::vector<Fault>& faults, Kind kind, std::size_t step) {
  return std::any_of(faults.begin(), faults.end(), [&](const Fault& fault) {
    return fault.kind == kind && fault.at.step == step;
  });
}

TEST(TheChecker, FindsNothingInAPlanThatHolds) {
  Day day = plain_day();
  for (Resource& what : day.house) what.closed.clear();
  EXPECT_TRUE(check(day, a_plan()).empty());
}

TEST(TheChecker, FindsEachKindOfFault) {
  Day day = plain_day();
  for (Resource& what : day.house) what.closed.clear();
  const auto with = [&](std::size_t step, Minutes by) {
    Plan plan = a_plan();
    plan[0].begin[step] += by;
    return check(day, plan);
  };
  EXPECT_TRUE(has(with(0, -15 * an_hour), Kind::before_begin, 0));
  EXPECT_TRUE(has(with(2, 3), Kind::off_grid, 2));
  EXPECT_TRUE(has(with(4, -15), Kind::out_of_order, 4));
  EXPECT_TRUE(has(with(1, -10), Kind::too_early, 1));
  EXPECT_TRUE(has(with(1, 3 * an_hour), Kind::too_late, 1));
  EXPECT_TRUE(has(with(7, 10), Kind::too_late, 7));
  EXPECT_TRUE(check(day, {}).front().kind == Kind::no_course);

  day.house[hands].closed = {{a_plan()[0].begin[3] + 14, a_plan()[0].begin[3] + 15}};
  EXPECT_TRUE(has(with(0, 0), Kind::closed, 3));
  day.bakes[0].ways[0].steps[0].begun = a_plan()[0].begin[0] - 5;
  EXPECT_TRUE(has(with(0, 0), Kind::moved, 0));
}

TEST(TheChecker, CountsEveryHolderOfAPlace) {
  Day day = plain_day();
  for (Resource& what : day.house) what.closed.clear();
  day.bakes.push_back(day.bakes.front());
  const Plan both{a_plan().front(), a_plan().front()};
  const auto faults = check(day, both);
  EXPECT_TRUE(has(faults, Kind::too_many, 0));
  for (const Fault& fault : faults) {
    ASSERT_EQ(fault.kind, Kind::too_many);
    EXPECT_TRUE(fault.resource == hands || fault.resource == mixer);
    EXPECT_EQ(fault.takers.size(), 2U);
  }
  day.house[hands].capacity = 2;
  day.house[mixer].capacity = 2;
  EXPECT_TRUE(check(day, both).empty());
}

}  // namespace

}  // namespace barm::dayplan

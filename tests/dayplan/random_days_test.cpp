#include <gtest/gtest.h>

#include <cmath>

#include "dayplan/bounds.h"
#include "dayplan/check.h"
#include "dayplan/move.h"
#include "dayplan/plan.h"
#include "dayplan/work.h"
#include "days.h"

namespace barm::dayplan {

namespace {

constexpr std::size_t bakes = 8;
constexpr std::size_t many = 10'000;

class RandomDays : public testing::TestWithParam<std::uint64_t> {
 protected:
  const Day day_ = random_day(bakes, GetParam(), 100 + GetParam(), 400);
  const Day fresh_ = random_day(bakes, GetParam(), 900 + GetParam(), many);
};

TEST_P(RandomDays, HaveAPlanThatHoldsWithItsChanceOnFreshDraws) {
  std::vector<double> told;
  Effort effort;
  effort.progress = [&](double part) { told.push_back(part); };
  const auto planned = plan(day_, {}, effort);
  ASSERT_TRUE(planned->plan);
  EXPECT_TRUE(check(day_, *planned->plan).empty());
  EXPECT_TRUE(std::is_sorted(told.begin(), told.end()));
  EXPECT_GT(told.size(), 10U);

  const Chance chance =
      work(random_day(bakes, GetParam(), 500 + GetParam(), 2000), *planned->plan).all;
  const Chance truth = work(fresh_, *planned->plan).all;
  const double error = std::sqrt(truth.value() * (1 - truth.value()) * (1.0 / 2000 + 1.0 / many));
  EXPECT_NEAR(chance.value(), truth.value(), 4 * error);

  // Slack where the doubt is: more goes well than by the timetable alone, and than by hours that
  // are all taken at their middle.
  effort.by_the_draws = false;
  const auto timetable = plan(day_, {}, effort);
  EXPECT_GT(truth.value(), work(fresh_, *timetable->plan).all.value());
  for (std::size_t b = 0; b < bakes; ++b) {
    const auto could = bounds(day_, b, (*planned->plan)[b].way);
    ASSERT_TRUE(could);
    for (std::size_t i = 0; i < could->earliest.size(); ++i)
      EXPECT_LE(could->earliest[i], could->latest[i]);
  }
}

TEST_P(RandomDays, ArePlannedAlikeEachTime) {
  EXPECT_EQ(plan(day_)->plan->front().begin, plan(day_)->plan->front().begin);
}

TEST_P(RandomDays, LetAStepBeMovedOrSayWhatItBreaks) {
  Effort effort;
  effort.by_the_draws = false;
  const Plan before = *plan(day_, {}, effort)->plan;
  int moved = 0;
  int refused = 0;
  for (std::size_t b = 0; b < bakes; b += 3) {
    for (std::size_t i = 0; i < before[b].begin.size(); ++i) {
      for (const Minutes by : {-90, -10, 20}) {
        const Moved answer = move(day_, before, {b, i}, before[b].begin[i] + by);
        if (!answer.plan) {
          EXPECT_FALSE(answer.broken.empty());
          ++refused;
          continue;
        }
        ++moved;
        EXPECT_TRUE(check(day_, *answer.plan).empty());
        EXPECT_EQ((*answer.plan)[b].begin[i], before[b].begin[i] + by);
        std::size_t changed = 0;
        for (std::size_t c = 0; c < bakes; ++c) {
          for (std::size_t s = 0; s < before[c].begin.size(); ++s)
            changed += before[c].begin[s] != (*answer.plan)[c].begin[s] ? 1U : 0U;
        }
        EXPECT_EQ(changed, answer.along.size() + 1);
      }
    }
  }
  EXPECT_GT(moved, 10);
  EXPECT_GT(refused, 0);
}

INSTANTIATE_TEST_SUITE_P(Six, RandomDays, testing::Range<std::uint64_t>(1, 7));

TEST(ADay, IsPlannedAgainWithWhatHasBegun) {
  Day day = random_day(3, 4, 4, 400);
  const Plan before = *plan(day)->plan;
  // The second loaf was fed 25 minutes late, before the plan begins anew.
  const std::size_t way = before[1].way;
  day.bakes[1].ways = {day.bakes[1].ways[way]};
  day.bakes[1].ways[0].steps[0].begun = -23;
  const auto again = plan(day);
  ASSERT_TRUE(again->plan);
  EXPECT_EQ((*again->plan)[1].begin[0], -23);
  EXPECT_TRUE(check(day, *again->plan).empty());
}

TEST(ADay, IsLeftWhenNobodyWantsItAnyMore) {
  Effort effort;
  int asked = 0;
  effort.cancelled = [&] { return ++asked > 5; };
  const auto planned = plan(random_day(bakes, 1, 1, 100), {}, effort);
  ASSERT_FALSE(planned.has_value());
  EXPECT_EQ(planned.error().code, ErrorCode::cancelled);
}

}  // namespace

}  // namespace barm::dayplan

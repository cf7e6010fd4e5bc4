// The estimator on doughs whose truth is known. The long runs: tools/study_long, figures in
// docs/validation.md.
#include "support/calibration.h"

#include <gtest/gtest.h>

#include "support/doughs.h"
#include "support/leave_future_out.h"
#include "support/matchers.h"

namespace barm::estimation {
namespace {

// Doughs of its own belief: the places of the truth have the width of a level draw and lean to no
// side. Four quantities, each held to two sums of normal scores, each beyond its bounds in one of
// 10 000 true cases: a false alarm in fewer than one of a thousand. Of 40 doughs, a belief that is
// twice too narrow shows in all four; one that is a whole standard deviation off shows as surely.
TEST(Calibration, PlacesOfTheTruthAreLevel) {
  constexpr double alarm = 1e-4;
  constexpr std::size_t doughs = 40;
  forecast::Proving bulk;
  bulk.horizon = 72.0 * hour;
  const DoughToRead batch = prepare(test::plain_dough(), day_one_belief(), bulk);
  LearnOptions options;
  options.draws = 300;
  options.least_effective = 60;
  options.threads = 2;
  const auto places = test::calibrate(batch, {1.5, 3, 4.5, 6}, doughs, 3, options);
  ASSERT_EQ(places.size(), 4U);
  for (const test::Places& one : places) {
    ASSERT_EQ(one.place.size(), doughs) << one.of;
    EXPECT_LT(one.squares(), test::chi_square_beyond(alarm / 2, doughs)) << one.of;
    EXPECT_GT(one.squares(), test::chi_square_below(alarm / 2, doughs)) << one.of;
    EXPECT_LT(one.square_of_sum(), test::chi_square_beyond(alarm, 1)) << one.of;
  }
}

// In short: what was read makes the forecast better than knowing only that the dough is not ready
// yet, for doughs of our own law and of a rival one. Two batches each tell no more than that.
TEST(LeaveFutureOut, LearningBeatsThePrior) {
  const test::Table table =
      test::leave_future_out(test::BatchMaker(1), 4, test::by_learning(day_one_belief(), 400, 2));
  const test::Scores own = test::Table::all(table.own);
  const test::Scores rival = test::Table::all(table.rival);
  ASSERT_GE(own.ours.count, 6);
  ASSERT_GE(rival.ours.count, 6);
  EXPECT_LT(own.ours.mean() + rival.ours.mean(), own.prior.mean() + rival.prior.mean());
  EXPECT_LT(own.ours.mean() + rival.ours.mean(), own.exponential.mean() + rival.exponential.mean());
}

// The scores themselves: a sure forecast is scored by its miss, a pair of points by hand, and none
// is better than the truth.
TEST(Scores, AreAsByHand) {
  EXPECT_DOUBLE_EQ(test::crps({{10}, {1}}, 12), 2);
  // mean |X - y| = 2, half the mean |X - X'| = 1: 1 h
  EXPECT_DOUBLE_EQ(test::crps({{8, 12}, {0.5, 0.5}}, 10), 1);
  EXPECT_TRUE(test::covers({{8, 9, 10, 11, 12}, {0.2, 0.2, 0.2, 0.2, 0.2}}, 11.9));
  EXPECT_FALSE(test::covers({{8, 9, 10, 11, 12}, {0.2, 0.2, 0.2, 0.2, 0.2}}, 12.1));
  const test::Guess late = test::not_before({{8, 12}, {0.5, 0.5}}, 10);
  EXPECT_DOUBLE_EQ(late.weight[0], 0);
  EXPECT_DOUBLE_EQ(late.weight[1], 1);
  // The score of a normal forecast N(0,1) at 0 is (sqrt 2 - 1)/sqrt pi = 0.2337 (Gneiting & Raftery
  // 2007).
  test::Guess normal;
  for (int k = 0; k < 2000; ++k) {
    normal.hours.push_back(numerics::normal_quantile((k + 0.5) / 2000));
    normal.weight.push_back(1.0 / 2000);
  }
  EXPECT_NEAR(test::crps(normal, 0), (std::sqrt(2.0) - 1) / std::sqrt(std::numbers::pi), 1e-3);
}

TEST(Batches, AreTheSameEachTimeAndHalfOfThemRivals) {
  const test::BatchMaker maker(1);
  int rivals = 0;
  int all = 0;
  for (std::uint64_t i = 0; i < 24; ++i) {
    const auto batch = maker.batch(i);
    const auto again = maker.batch(i);
    ASSERT_EQ(batch.has_value(), again.has_value());
    if (!batch) continue;
    EXPECT_EQ(batch->ready, again->ready);
    EXPECT_EQ(batch->readings.rows.size(), again->readings.rows.size());
    EXPECT_GE(batch->readings.rows.size(), 4U);
    ++all;
    rivals += batch->law != test::Law::ours ? 1 : 0;
  }
  EXPECT_GT(all, 16);
  EXPECT_GT(rivals, all / 3);
  EXPECT_LT(rivals, 2 * all / 3);
}

TEST(Batches, RivalLawsPassTheirPoints) {
  const test::GompertzRise gompertz(2, 6, 10);
  EXPECT_NEAR(gompertz.at(10), 2, 0.05);
  EXPECT_NEAR(gompertz.at(6), 1.2, 0.05);
  EXPECT_NEAR(gompertz.at(100), 3, 0.05);
  const test::BaranyiRise baranyi(2, 1.5, 6, 10);
  EXPECT_NEAR(baranyi.at(6), 1.2, 1e-4);
  EXPECT_NEAR(baranyi.at(10), 2, 1e-6);
  EXPECT_NEAR(baranyi.at(0), 1, 1e-9);
  EXPECT_LT(baranyi.at(100), 3);  // less what it began with
  EXPECT_GT(baranyi.at(100), 2.9);
}

}  // namespace
}  // namespace barm::estimation

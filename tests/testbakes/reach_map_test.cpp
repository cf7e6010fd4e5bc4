#include "testbakes/reach_map.h"

#include <algorithm>
#include <cmath>

#include "forecast/reach.h"
#include "formula/bakes.h"
#include "formula/read.h"
#include "mead_test.h"
#include "support/matchers.h"

namespace barm::testbakes {

namespace {

using test::FailsWith;
using test::Holds;

formula::Bake mead() {
  return formula::read_bake(std::string(BARM_ROOT) + "/examples/mead-loaf.toml").value();
}

MapQuestion small(Upward upward, double least, double most) {
  MapQuestion question;
  question.upward = upward;
  question.least = least;
  question.most = most;
  question.columns = 9;
  question.rows = 7;
  question.draws = 60;
  return question;
}

TEST(ReachMap, ACellIsWhatAForecastOfThatBakeSays) {
  const auto question = small(Upward::temperature, 18, 30);
  const auto map = reach_map(mead(), question);
  ASSERT_THAT(map, Holds());
  // The third column is a quarter of the liquid, the fourth row 24 C. The draws differ (the map's
  // bowl has a line of its own for water), so the two agree to the luck of 60 and 1500 draws.
  forecast::Options options;
  options.draws = 1500;
  options.temperature = Temperature::from_celsius(24);
  options.horizon = 14.0 * hour;
  const auto hours =
      forecast::hours_to_ready(forecast::with_share(mead(), "dry mead", 0.25).value(), options)
          .value();
  const auto in_time = std::count_if(hours.begin(), hours.end(), [](double h) { return h <= 14; });
  const double truth = static_cast<double>(in_time) / 1500;
  EXPECT_NEAR(map->field.at(2, 3), truth, 3.5 * std::sqrt(truth * (1 - truth) / 60 + 1e-3));
}

TEST(ReachMap, MoreDrinkIsNeverSoonerAndMoreTimeNeverWorse) {
  const auto map = reach_map(mead(), small(Upward::time, 4, 34));
  ASSERT_THAT(map, Holds());
  for (int row = 0; row < 7; ++row) {
    for (int column = 0; column < 9; ++column) {
      if (row == 0) continue;
      EXPECT_GE(map->field.at(column, row), map->field.at(column, row - 1));
    }
    EXPECT_GE(map->field.at(0, row) + 1e-9, map->field.at(8, row));
  }
}

TEST(ReachMap, MoreStarterHelps) {
  const auto map = reach_map(mead(), small(Upward::starter, 0.05, 0.4));
  ASSERT_THAT(map, Holds());
  double least = 0;
  double most = 0;
  for (int column = 0; column < 9; ++column) {
    least += map->field.at(column, 0);
    most += map->field.at(column, 6);
  }
  EXPECT_GT(most, least + 0.5);
  EXPECT_NEAR(map->now_up, 0.2, 1e-6);
  EXPECT_NEAR(map->now_share, 0.5, 1e-6);
}

TEST(ReachMap, EndsWhereNoWaterIsLeft) {
  const auto bake = formula::test::bake(formula::test::two_drinks);
  auto question = small(Upward::temperature, 18, 30);
  question.drink = "dry mead";
  const auto map = reach_map(bake, question);
  ASSERT_THAT(map, Holds());
  EXPECT_NEAR(map->now_share, 0.4, 1e-9);
  EXPECT_NEAR(map->room, 0.8, 1e-9);
}

TEST(ReachMap, ACultureThatIsKnownSharpensTheMap) {
  auto question = small(Upward::temperature, 18, 30);
  const auto book = reach_map(mead(), question).value();
  const kinetics::JointPrior certain;  // the published numbers, without doubt
  question.prior = &certain;
  const auto known = reach_map(mead(), question).value();
  const auto grey = [](const ReachMap& map) {
    double sum = 0;
    for (const double p : map.field.chance) sum += p * (1 - p);
    return sum;
  };
  EXPECT_LT(grey(known), 0.8 * grey(book));
}

TEST(ReachMap, RefusesWhatCannotBe) {
  EXPECT_THAT(reach_map(mead(), small(Upward::temperature, 30, 18)),
              FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(reach_map(mead(), small(Upward::starter, 0.1, 3)), FailsWith(ErrorCode::bad_input));
  auto question = small(Upward::time, 1, 20);
  question.drink = "stout";
  EXPECT_THAT(reach_map(mead(), question), FailsWith(ErrorCode::not_found));
  question.drink = "";
  question.cancelled = [] { return true; };
  EXPECT_THAT(reach_map(mead(), question), FailsWith(ErrorCode::cancelled));
}

forecast::Field field_of(int n, double (*of)(double, double)) {
  forecast::Field field;
  field.columns = field.rows = n;
  for (int row = 0; row < n; ++row)
    for (int column = 0; column < n; ++column)
      field.chance.push_back(of(column / (n - 1.0), row / (n - 1.0)));
  return field;
}

TEST(Contours, OfAPlaneIsAStraightLine) {
  const auto lines = contours(field_of(11, [](double x, double y) { return 0.5 * (x + y); }), 0.4);
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_FALSE(lines[0].closed);
  for (const auto& p : lines[0].points) EXPECT_NEAR(p.column + p.row, 8, 1e-9);
}

TEST(Contours, OfAHillIsAClosedCircle) {
  const auto lines = contours(
      field_of(41, [](double x, double y) { return 1 - std::hypot(x - 0.5, y - 0.5); }), 0.7);
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_TRUE(lines[0].closed);
  for (const auto& p : lines[0].points)
    EXPECT_NEAR(std::hypot(p.column - 20, p.row - 20), 12, 0.05);
}

TEST(Contours, ASaddleGivesTwoLines) {
  const auto lines =
      contours(field_of(10, [](double x, double y) { return 0.5 + (x - 0.5) * (y - 0.5); }), 0.6);
  EXPECT_EQ(lines.size(), 2U);
}

}  // namespace

}  // namespace barm::testbakes

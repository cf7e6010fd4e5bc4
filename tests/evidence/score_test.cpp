// The scores of the evidence against cases whose answers are known.
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "support/evidence_score.h"

namespace barm::test {

namespace {

std::vector<double> normal_draws(double mean, double sd) {
  std::vector<double> draws;
  for (int i = 1; i < 2000; ++i) draws.push_back(mean + sd * numerics::normal_quantile(i / 2000.0));
  return draws;
}

ScoredRow time_row(const std::string& source, double share, double celsius, double theirs) {
  ScoredRow row;
  row.source = source;
  row.theirs = theirs;
  row.share = share;
  row.celsius = celsius;
  row.time = true;
  return row;
}

TEST(Crps, OfDrawsMeetsTheFormulaOfTheNormal) {
  for (const double truth : {-1.0, 0.3, 2.5})
    EXPECT_NEAR(crps_of(normal_draws(0.5, 0.8), truth), crps_of_normal(0.5, 0.8, truth), 2e-3);
}

TEST(Crps, OfOneNumberIsItsDistance) { EXPECT_DOUBLE_EQ(crps_of({2.0, 2.0, 2.0}, 5), 3.0); }

TEST(BySource, ASourceOfManyRowsWeighsNoMoreThanAnother) {
  std::vector<ScoredRow> rows(9, time_row("many", 0.2, 24, 8));
  rows.push_back(time_row("one", 0.2, 24, 8));
  for (ScoredRow& row : rows) row.crps = row.source == "one" ? 1 : 0;
  EXPECT_DOUBLE_EQ(score_of(rows), 0.5);
}

TEST(TwoLines, AreFoundWhereTheyHold) {
  std::vector<ScoredRow> rows;
  for (const double share : {0.02, 0.1, 0.4}) {
    for (const double celsius : {18.0, 24.0, 32.0}) {
      const double hours = 3 / std::pow(share, 0.4) * std::pow(2, (24 - celsius) / 8);
      rows.push_back(time_row(share < 0.05 ? "a" : "b", share, celsius, hours));
    }
  }
  const TwoLines rule = two_lines(rows);
  EXPECT_NEAR(std::exp(rule.ln_c), 3, 1e-9);
  EXPECT_NEAR(rule.p, 0.4, 1e-9);
  EXPECT_NEAR(rule.doubt, 0, 1e-6);
}

TEST(Bootstrap, OfLikeSourcesIsAPointAndOfUnlikeOnesIsNot) {
  const Interval same = bootstrap({{"a", 0.4}, {"b", 0.4}, {"c", 0.4}});
  EXPECT_NEAR(same.low, 0.4, 1e-12);
  EXPECT_NEAR(same.high, 0.4, 1e-12);
  const Interval wide = bootstrap({{"a", 0}, {"b", 1}, {"c", 0}, {"d", 1}});
  EXPECT_LT(wide.low, 0.3);
  EXPECT_GT(wide.high, 0.7);
}

}  // namespace

}  // namespace barm::test

// What buyers say, against R: prop.test without continuity correction gives Wilson's interval,
// isoreg the least-squares shares that never rise with the price (R 4, package stats).
#include "shop/buyers.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>
#include <string>
#include <vector>

#include "numerics/random.h"
#include "support/r.h"
#include "support/validation.h"

namespace barm::shop {

namespace {

constexpr int people = 37;
constexpr int prices = 9;

/// Answers with a share that falls with the price, by seed; every person is asked every price.
std::vector<Answer> drawn_answers(std::uint64_t seed) {
  std::vector<Answer> answers;
  for (int i = 0; i < people; ++i) {
    numerics::Random random(seed, static_cast<std::uint64_t>(i));
    for (int k = 0; k < prices; ++k) {
      const bool yes = random.uniform() < 0.9 - 0.09 * k;
      answers.push_back({"p" + std::to_string(i), Cash::from_minor(500 + 50 * k), yes});
    }
  }
  return answers;
}

/// "yes low high falling profit" of each price, as R has them.
std::vector<std::array<double, 4>> by_r(const Buyers& buyers) {
  std::ostringstream script;
  script << "n<-" << people << ";y<-c(";
  for (std::size_t k = 0; k < buyers.shares.size(); ++k) {
    script << (k > 0 ? "," : "") << buyers.shares[k].yes;
  }
  script << ");p<-seq(5,by=0.5,length.out=length(y));f<- -isoreg(p,-y/n)$yf;for(k in seq_along(y)){"
            "i<-suppressWarnings(prop.test(y[k],n,conf.level=0.8,correct=FALSE))$conf.int;"
            "cat(sprintf(\"%.12f %.12f %.12f %.12f\\n\",i[1],i[2],f[k],100*f[k]*(p[k]/1.07-3.2)))}";
  const std::vector<double> numbers = test::from_r(script.str());
  std::vector<std::array<double, 4>> rows;
  for (std::size_t k = 0; k + 4 <= numbers.size(); k += 4) {
    rows.push_back({numbers[k], numbers[k + 1], numbers[k + 2], numbers[k + 3]});
  }
  return rows;
}

TEST(BuyersAgainstR, SharesIntervalsAndProfitAgree) {
  double worst_interval = 0;
  double worst_share = 0;
  double worst_profit = 0;
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    const Buyers buyers = judge(drawn_answers(seed), Cash::from_minor(320), 0.07, 50);
    const auto theirs = by_r(buyers);
    ASSERT_EQ(theirs.size(), buyers.shares.size());
    std::size_t best = 0;
    for (std::size_t k = 0; k < theirs.size(); ++k) {
      const Share& ours = buyers.shares[k];
      worst_interval = std::max(
          {worst_interval, std::abs(ours.low - theirs[k][0]), std::abs(ours.high - theirs[k][1])});
      worst_share = std::max(worst_share, std::abs(ours.falling - theirs[k][2]));
      worst_profit = std::max(worst_profit, std::abs(ours.profit.number({}) - theirs[k][3]));
      if (theirs[k][3] >= theirs[best][3]) best = k;
    }
    EXPECT_EQ(buyers.best, best) << "seed " << seed;
  }
  // Our normal quantile is right to 1.2e-9; the factors of money are taken to nine decimals.
  EXPECT_LT(worst_interval, 1e-8);
  EXPECT_LT(worst_share, 1e-11);
  EXPECT_LT(worst_profit, 1e-6);
  test::record("till",
               "share of buyers, ends of its interval, 54 prices: largest deviation",
               "R, prop.test without continuity correction",
               "0",
               worst_interval,
               "share",
               worst_interval < 1e-8);
  test::record("till",
               "share of buyers that never rises with the price, 54 prices: largest deviation",
               "R, isoreg",
               "0",
               worst_share,
               "share",
               worst_share < 1e-11);
}

}  // namespace

}  // namespace barm::shop

#include "testbakes/told_apart.h"

#include <gmock/gmock.h>

#include "support/r.h"

namespace barm::testbakes {

namespace {

using testing::HasSubstr;

Doses doses(double alcohol, double acid, double sulphite) {
  Doses d{};
  d[0] = alcohol;
  d[1] = acid;
  d[2] = sulphite;
  return d;
}

const std::vector<Cause> three{Cause::alcohol, Cause::acid, Cause::sulphite};

std::vector<Doses> factorial() {
  std::vector<Doses> all;
  for (unsigned i = 0; i < 8; ++i)
    all.push_back(doses((i & 1U) != 0 ? 40 : 0, (i & 2U) != 0 ? 20 : 0, (i & 4U) != 0 ? 0.1 : 0));
  return all;
}

TEST(ToldApart, WaterAndWineTellNothingApart) {
  const auto told = told_apart({doses(40, 20, 0.1), doses(0, 0, 0)}, three);
  EXPECT_EQ(told.rank, 1);
  for (const Cause cause : three) EXPECT_FALSE(told.can_name(cause)) << name(cause);
  ASSERT_EQ(told.words.size(), 1U);
  EXPECT_THAT(told.words[0], HasSubstr("alcohol, acid and sulphite rise and fall together"));
  EXPECT_THAT(told.words[0], HasSubstr("you will not know which"));
}

TEST(ToldApart, FullFactorialTellsAll) {
  const auto told = told_apart(factorial(), three);
  EXPECT_EQ(told.rank, 3);
  for (const auto& one : told.told) {
    EXPECT_EQ(one.telling, Telling::apart);
    EXPECT_NEAR(one.variance_inflation, 1, 1e-9);  // orthogonal columns
  }
}

TEST(ToldApart, TwoThatMoveTogetherAreNamedTheThirdIsNot) {
  const auto told =
      told_apart({doses(40, 20, 0), doses(0, 0, 0), doses(40, 20, 0.1), doses(0, 0, 0.1)}, three);
  EXPECT_EQ(told.rank, 2);
  EXPECT_FALSE(told.can_name(Cause::alcohol));
  EXPECT_FALSE(told.can_name(Cause::acid));
  EXPECT_TRUE(told.can_name(Cause::sulphite));
  EXPECT_THAT(told.words[0], HasSubstr("alcohol and acid rise and fall together"));
}

TEST(ToldApart, WhatNeverVariesIsSaid) {
  const auto told = told_apart({doses(40, 20, 0), doses(0, 20, 0)}, {Cause::alcohol, Cause::acid});
  EXPECT_TRUE(told.can_name(Cause::alcohol));
  EXPECT_FALSE(told.can_name(Cause::acid));
  EXPECT_THAT(told.words[0], HasSubstr("every dough holds the same acid"));
}

TEST(ToldApart, ThreeThatSumUpAreFoundThoughNoTwoMoveTogether) {
  // In every dough ln(1 + z/z_most) of the third is the mean of the other two's.
  std::vector<Doses> all;
  for (const auto& [a, b] : {std::pair{0.0, 0.0}, {1.0, 0.0}, {0.0, 1.0}, {1.0, 1.0}}) {
    const double third = std::exp(0.5 * std::log(2.0) * (a + b)) - 1;
    all.push_back(doses(40 * a, 20 * b, 0.1 * third));
  }
  const auto told = told_apart(all, three);
  EXPECT_EQ(told.rank, 2);
  for (const Cause cause : three) EXPECT_FALSE(told.can_name(cause)) << name(cause);
}

TEST(ToldApart, VarianceInflationIsThatOfR) {
  const std::vector<Doses> all{doses(0, 0, 0),
                               doses(40, 3, 0.1),
                               doses(40, 20, 0),
                               doses(20, 6, 0.1),
                               doses(0, 18, 0.05),
                               doses(30, 16, 0.02)};
  const auto told = told_apart(all, three);
  const auto r = test::from_r(
      "x <- rbind(c(0,0,0),c(40,3,.1),c(40,20,0),c(20,6,.1),c(0,18,.05),c(30,16,.02))\n"
      "x <- log1p(sweep(x,2,apply(x,2,max),'/'))\n"
      "for(j in 1:3) cat(1/(1-summary(lm(x[,j]~x[,-j]))$r.squared), '')\n");
  ASSERT_EQ(r.size(), 3U);
  for (std::size_t j = 0; j < 3; ++j)
    EXPECT_NEAR(told.told[j].variance_inflation, r[j], 1e-6 * r[j]);
}

}  // namespace

}  // namespace barm::testbakes

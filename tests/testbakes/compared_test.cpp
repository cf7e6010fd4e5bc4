#include "testbakes/compared.h"

#include <gmock/gmock.h>

#include "support/r.h"

namespace barm::testbakes {

namespace {

double gompertz(double t, double a, double mu, double lag) {
  return 1 + a * std::exp(-std::exp(mu * std::exp(1.0) * (lag - t) / a + 1));
}

Watched jar(double a, double mu, double lag) {
  Watched jar;
  for (const double t : {2.0, 4.0, 6.0, 8.0, 10.0, 12.0, 15.0, 18.0})
    jar.looks.push_back({t, gompertz(t, a, mu, lag)});
  return jar;
}

TEST(RiseOfAJar, FindsTheCurveItWasMadeFrom) {
  for (const double lag : {1.0, 2.5, 4.0}) {
    const Rise rise = rise_of(jar(1.9, 0.3, lag));
    EXPECT_TRUE(rise.risen);
    EXPECT_NEAR(rise.speed, 0.3, 0.01) << lag;
    EXPECT_NEAR(rise.lag, lag, 0.15) << lag;
  }
}

TEST(RiseOfAJar, AJarThatDoesNotRiseHasNoSpeed) {
  const Rise rise = rise_of(jar(0.03, 0.01, 2));
  EXPECT_FALSE(rise.risen);
}

TEST(Compared, IntervalsAndHolmAreThoseOfR) {
  const std::vector<double> y{
      0.10, 0.05, -0.31, -0.28, 0.02, -0.12, 0.21, 0.12, -0.22, -0.15, 0.06, 0.01};
  const std::vector<std::size_t> dough{0, 0, 1, 1, 2, 2, 0, 0, 1, 1, 2, 2};
  const std::vector<std::size_t> day{0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1};
  const auto r = test::from_r(
      "y <- c(.10,.05,-.31,-.28,.02,-.12,.21,.12,-.22,-.15,.06,.01)\n"
      "d <- factor(c(0,0,1,1,2,2,0,0,1,1,2,2)); t <- factor(rep(0:1,each=6))\n"
      "f <- lm(y ~ d + t); s <- summary(f)\n"
      "ci <- confint(f, level=1-.1/2)\n"
      "cat(coef(f)[2:3], ci[2,], ci[3,], p.adjust(s$coefficients[2:3,4],'holm'), s$sigma)\n");
  ASSERT_EQ(r.size(), 9U);
  const auto found = compared("speed", y, dough, day, 0);
  ASSERT_TRUE(found.has_value());
  ASSERT_EQ(found->contrasts.size(), 2U);
  EXPECT_EQ(found->freedom, 8);
  EXPECT_NEAR(found->scatter, r[8], 1e-9);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(found->contrasts[i].difference, r[i], 1e-9);
    EXPECT_NEAR(found->contrasts[i].low, r[2 + 2 * i], 1e-9);
    EXPECT_NEAR(found->contrasts[i].high, r[3 + 2 * i], 1e-9);
    EXPECT_NEAR(found->contrasts[i].p, r[6 + i], 1e-9);
  }
}

TEST(Compared, WithoutAnythingToJudgeByThereIsNoComparison) {
  EXPECT_FALSE(compared("lag", {1, 2}, {0, 1}, {0, 0}, 0).has_value());
  EXPECT_FALSE(compared("lag", {1, 2, 3}, {0, 1, 1}, {0, 0, 0}, 7).has_value());
  EXPECT_TRUE(compared("lag", {1, 2}, {0, 1}, {0, 0}, 0, 0.1, 4).has_value());
}

}  // namespace

}  // namespace barm::testbakes

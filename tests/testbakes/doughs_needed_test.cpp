#include "testbakes/doughs_needed.h"

#include <gmock/gmock.h>

#include <cmath>

#include "support/r.h"

namespace barm::testbakes {

namespace {

TEST(DoughsNeeded, PowerIsThatOfR) {
  // One day, n jars of two doughs: the two-sample t test of power.t.test, both tails.
  const auto r = test::from_r(
      "for(n in c(3,5,8)) cat(power.t.test(n=n, delta=.12, sd=.05, sig.level=.05, "
      "strict=TRUE)$power, '')\n"
      // three days, two jars of each of five doughs: df = (5*2-1)*3-4 = 23
      "d <- .1/(.05*sqrt(2/6)); q <- qt(.975, 23)\n"
      "cat(pt(q, 23, d, lower.tail=FALSE) + pt(-q, 23, d), '')\n");
  ASSERT_EQ(r.size(), 4U);
  EXPECT_NEAR(chance_to_show(0.12, 1, 3, 0.05), r[0], 1e-6);
  EXPECT_NEAR(chance_to_show(0.12, 1, 5, 0.05), r[1], 1e-6);
  EXPECT_NEAR(chance_to_show(0.12, 1, 8, 0.05), r[2], 1e-6);
  EXPECT_NEAR(chance_to_show(-0.1, 3, 2, 0.05, 5), r[3], 1e-6);
}

TEST(DoughsNeeded, TheWaysFoundDoAndOneDayLessDoesNot) {
  const auto ways = doughs_needed(0.15, 0.08);
  ASSERT_FALSE(ways.empty());
  for (const DoughsNeeded& way : ways) {
    EXPECT_GE(way.chance, 0.8);
    if (way.days == 1) continue;
    EXPECT_LT(chance_to_show(std::log(0.85), way.days - 1, way.jars, 0.08), 0.8);
  }
}

TEST(DoughsNeeded, OneJarOfTwoDoughsOnOneDayShowsNothing) {
  EXPECT_EQ(chance_to_show(0.5, 1, 1, 0.05), 0);
}

}  // namespace

}  // namespace barm::testbakes

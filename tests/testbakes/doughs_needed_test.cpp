#include "testbakes/doughs_needed.h"

#include <gmock/gmock.h>

#include <cmath>

#include "support/r.h"

namespace barm::testbakes {

namespace {

TEST(DoughsNeeded, PowerIsThatOfR) {
  // n days of two doughs: the paired t test of power.t.test, both tails; its sd is that of the
  // differences.
  const auto r = test::from_r(
      "for(n in c(3,5,8)) cat(power.t.test(n=n, delta=.12, sd=.05*sqrt(2), sig.level=.05, "
      "type='paired', strict=TRUE)$power, '')\n"
      // three days of five doughs, four jars of each: df = 4*2
      "s <- sqrt(.04^2+.06^2/4); d <- .1/(s*sqrt(2/3)); q <- qt(.975, 8)\n"
      "cat(pt(q, 8, d, lower.tail=FALSE) + pt(-q, 8, d), '')\n");
  ASSERT_EQ(r.size(), 4U);
  EXPECT_NEAR(chance_to_show(0.12, 3, 1, {.dough = 0.05}), r[0], 1e-6);
  EXPECT_NEAR(chance_to_show(0.12, 5, 1, {.dough = 0.05}), r[1], 1e-6);
  EXPECT_NEAR(chance_to_show(0.12, 8, 1, {.dough = 0.05}), r[2], 1e-6);
  EXPECT_NEAR(chance_to_show(-0.1, 3, 4, {.dough = 0.04, .jar = 0.06}, 5), r[3], 1e-6);
}

TEST(DoughsNeeded, TheWaysFoundDoAndOneDayLessDoesNot) {
  constexpr Scatter scatter{.dough = 0.08, .jar = 0.05};
  const auto ways = doughs_needed(0.15, scatter);
  ASSERT_FALSE(ways.empty());
  for (const DoughsNeeded& way : ways) {
    EXPECT_GE(way.chance, 0.8);
    EXPECT_LT(chance_to_show(std::log(0.85), way.days - 1, way.jars, scatter), 0.8);
  }
}

// A hundred jars of two doughs on one day are still one dough of each.
TEST(DoughsNeeded, OneDayOfTwoDoughsShowsNothing) {
  EXPECT_EQ(chance_to_show(0.5, 1, 1, usual_scatter()), 0);
  EXPECT_EQ(chance_to_show(0.5, 1, 100, usual_scatter()), 0);
}

}  // namespace

}  // namespace barm::testbakes

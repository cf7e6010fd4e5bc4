#include "testbakes/triangle.h"

#include <gmock/gmock.h>

#include <map>
#include <set>

#include "support/r.h"

namespace barm::testbakes {

namespace {

using testing::HasSubstr;

TEST(Triangle, ExactBinomialValuesAreThoseOfR) {
  const auto r = test::from_r(
      "for(k in c(5,10,12,15,20)) cat(binom.test(k, 30, 1/3, alternative='greater')$p.value, '')\n"
      "b <- binom.test(12, 30, conf.level=.9)$conf.int; cat((3*b-1)/2, '')\n");
  ASSERT_EQ(r.size(), 7U);
  const int right[] = {5, 10, 12, 15, 20};
  for (std::size_t i = 0; i < 5; ++i)
    EXPECT_NEAR(triangle(30, right[i]).p_value, r[i], 1e-10 * r[i] + 1e-14);
  const TriangleResult twelve = triangle(30, 12);
  EXPECT_NEAR(twelve.tell_low, std::max(0.0, r[5]), 1e-9);
  EXPECT_NEAR(twelve.tell_high, r[6], 1e-9);
}

TEST(Triangle, RightNeededIsThatOfRForEveryNumberOfTasters) {
  const auto r = test::from_r(
      "for(a in c(.2,.1,.05,.01,.001)) for(n in 5:120) { k <- 0\n"
      "while(k <= n && pbinom(k-1,n,1/3,lower.tail=FALSE) > a) k <- k+1; cat(k,'') }\n");
  ASSERT_EQ(r.size(), 5U * 116U);
  std::size_t i = 0;
  for (const double alpha : {0.2, 0.1, 0.05, 0.01, 0.001}) {
    for (int n = 5; n <= 120; ++n) EXPECT_EQ(right_needed(n, alpha), r[i++]) << n << " " << alpha;
  }
}

TEST(Triangle, SaysItInPlainWords) {
  EXPECT_EQ(triangle(30, 12).words,
            "12 of 30 right: no evidence that they can tell; 15 right would be needed");
  EXPECT_THAT(triangle(30, 17).words, HasSubstr("17 of 30 right: they can tell"));
  EXPECT_THAT(triangle(2, 2).words, HasSubstr("too few tasters"));
  EXPECT_TRUE(triangle(30, 15).can_tell);
  EXPECT_FALSE(triangle(30, 14).can_tell);
}

TEST(Triangle, EndsOfTheScaleStayFinite) {
  const TriangleResult none = triangle(10, 0);
  EXPECT_EQ(none.p_value, 1);
  EXPECT_EQ(none.tell_low, 0);
  const TriangleResult all = triangle(10, 10);
  EXPECT_EQ(all.tell_high, 1);
  EXPECT_NEAR(all.p_value, std::pow(1.0 / 3, 10), 1e-15);
}

TEST(ServingPlan, SixOrdersComeEquallyOften) {
  std::map<std::string, int> count;
  for (const Serving& serving : serving_plan(30, 4)) {
    ++count[serving.order()];
    EXPECT_EQ(std::set<std::string>(serving.label.begin(), serving.label.end()).size(), 3U);
    const bool odd = serving.tray[static_cast<std::size_t>(serving.odd - 1)];
    EXPECT_EQ(std::count(serving.tray.begin(), serving.tray.end(), odd), 1);
  }
  EXPECT_EQ(count.size(), 6U);
  for (const auto& [order, n] : count) EXPECT_EQ(n, 5) << order;
}

TEST(ServingPlan, AnyNumberOfTastersIsBalancedToOne) {
  std::map<std::string, int> count;
  for (const Serving& serving : serving_plan(16, 4)) ++count[serving.order()];
  for (const auto& [order, n] : count) EXPECT_TRUE(n == 2 || n == 3) << order << n;
}

}  // namespace

}  // namespace barm::testbakes

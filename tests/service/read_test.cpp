// What slows a dough that was read is told of the doughs its head is told of.
#include "service/bake/read.h"

#include <gmock/gmock.h>

#include "forecast/in_the_way.h"
#include "formula/read.h"
#include "service/bake/foresee.h"
#include "support/matchers.h"

namespace barm::service {
namespace {

formula::Bake mead_loaf() {
  return formula::read_bake(std::string(BARM_ROOT) + "/examples/mead-loaf.toml").value();
}

ReadAnswer slow_dough() {
  const auto batch =
      batch_of(mead_loaf(), {.typed = {"0h 40 mm", "4h 41 mm", "8h 44 mm", "11h 50 mm"}});
  return read(*batch, {}).value();
}

double sum_of(const forecast::InTheWay& way) {
  double sum = way.bare->in(hour);
  for (const forecast::Hindrance& one : way.hindrances) sum += one.costs.in(hour);
  return sum;
}

TEST(WhatSlowsADoughThatWasRead, MakesTheHourOfItsHead) {
  const ReadAnswer answer = slow_dough();
  ASSERT_TRUE(answer.after.ready.p50);
  ASSERT_TRUE(answer.in_the_way.bare);
  EXPECT_EQ(answer.in_the_way.as_it_is, answer.after.ready.p50);
  EXPECT_NEAR(sum_of(answer.in_the_way), answer.after.ready.p50->in(hour), 1e-6);
  EXPECT_LT(*answer.in_the_way.bare, *answer.in_the_way.plain);
  EXPECT_LT(*answer.in_the_way.plain, *answer.after.ready.p50);
}

// A dough that is later than foretold has a slower culture, which without the mead is slow too.
TEST(WhatSlowsADoughThatWasRead, IsToldOfTheCultureThatTheReadingsShow) {
  const ReadAnswer read = slow_dough();
  const auto unread = foresee(mead_loaf(), {});
  ASSERT_THAT(unread, test::Holds());
  ASSERT_GT(*read.after.ready.p50, *unread->forecast.ready.p50 + 1.0 * hour);
  EXPECT_GT(*read.in_the_way.plain, *unread->in_the_way.plain + 0.5 * hour);
}

}  // namespace
}  // namespace barm::service

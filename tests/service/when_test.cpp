// Backwards from an hour of the oven: what is told lies ahead, and is what the draws say.
#include "service/bake/when.h"

#include <gmock/gmock.h>

#include "../support/matchers.h"
#include "forecast/ensemble.h"
#include "formula/read.h"
#include "service/noon.h"

namespace barm::service {

namespace {

using barm::test::FailsWith;
using barm::test::Holds;
using barm::test::saturday_noon;

Result<WhenAnswer> asked(const std::string& oven) {
  const auto bake = formula::read_bake(BARM_ROOT "/examples/plain-loaf.toml");
  forecast::Options options;
  options.draws = 60;
  return when(*bake, {oven, saturday_noon()}, options);
}

TEST(When, AnHourThatLiesBehindIsRefused) {
  EXPECT_THAT(asked("2026-11-28T11:59"), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(asked("yesterday"), FailsWith(ErrorCode::bad_input));
}

TEST(When, AnHourNearerThanItsLevainTakesIsRefused) {
  const auto near = asked("13:00");
  ASSERT_THAT(near, FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(near.error().message, testing::HasSubstr("too near"));
}

TEST(When, NothingIsToBeDoneBeforeNow) {
  const auto answer = asked("22:00");
  ASSERT_THAT(answer, Holds());
  ASSERT_TRUE(answer->fed_before_mixing);
  EXPECT_LE((answer->best + *answer->fed_before_mixing).in(hour), 10.0 + 1e-9);
}

TEST(When, ANamedDayIsTheNextOne) {
  const auto answer = asked("Sat 08:30");
  ASSERT_THAT(answer, Holds());
  EXPECT_EQ(answer->oven_at, "2026-12-05T08:30");
}

TEST(When, TheChanceOfTheBestHourIsTheShareOfDraws) {
  const auto answer = asked("Mon 08:30");
  ASSERT_THAT(answer, Holds());
  forecast::Options options;
  options.draws = 60;
  options.until_past = true;
  const auto seen =
      forecast::foresee(*formula::read_bake(BARM_ROOT "/examples/plain-loaf.toml"), options);
  ASSERT_THAT(seen, Holds());
  int good = 0;
  for (std::size_t i = 0; i < 60; ++i)
    good += seen->timeline.oven_hours[i] <= answer->best.in(hour) &&
                    answer->best.in(hour) < seen->timeline.past_hours[i]
                ? 1
                : 0;
  EXPECT_NEAR(answer->best_chance.value(), good / 60.0, 1e-9);
  EXPECT_GT(good, 0);
}

TEST(When, TellsTheBreadOfEveryLoad) {
  auto bake = formula::read_bake(BARM_ROOT "/examples/mead-loaf.toml");  // six loaves
  ASSERT_THAT(bake, Holds());
  bake->oven.emplace();
  bake->oven->bake = 40.0 * minute;
  bake->oven->loaves = 2;
  forecast::Options options;
  options.draws = 60;
  const auto answer = when(*bake, {"Mon 08:30", saturday_noon()}, options);
  ASSERT_THAT(answer, Holds());
  ASSERT_EQ(answer->bread.size(), 3U);
  double in_min = 0;
  for (const forecast::Bread& load : answer->bread) {
    EXPECT_NEAR(load.in.p50->in(minute), in_min, 1e-6);
    EXPECT_NEAR(load.out.p50->in(minute), in_min + 40, 1e-6);
    EXPECT_GT(*load.cut.p50, *load.out.p50);
    EXPECT_GT(*load.bag.p50, *load.cut.p50);
    in_min += 45;
  }
}

}  // namespace

}  // namespace barm::service

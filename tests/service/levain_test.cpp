// Feeding the levain for an hour.
#include "service/bake/levain.h"

#include <gmock/gmock.h>

#include "../support/matchers.h"

namespace barm::service {

using test::FailsWith;
using test::Holds;

namespace {

LevainRequest fed_at_noon(const char* peak) {
  LevainRequest request;
  request.fed_at = "2026-11-27T12:00";
  request.peak_at = peak;
  return request;
}

}  // namespace

// The hour was passed over where the feeding had one too: every hour was answered with 1:2:1.
TEST(Levain, FedAtOneHourAndWantedAtAnotherHasTheTimeBetween) {
  const forecast::Options options;
  const auto at_six = levain(fed_at_noon("2026-11-27T18:00"), options);
  const auto at_eight = levain(fed_at_noon("2026-11-27T20:00"), options);
  ASSERT_THAT(at_six, Holds());
  ASSERT_THAT(at_eight, Holds());
  EXPECT_GT(at_eight->feeding.fresh_flour, at_six->feeding.fresh_flour);
  EXPECT_NEAR(at_six->feeding.peak.p50->in(hour), 6, 0.3);
  EXPECT_NEAR(at_eight->feeding.peak.p50->in(hour), 8, 0.3);
  EXPECT_THAT(levain(fed_at_noon("2026-11-27T10:00"), options), FailsWith(ErrorCode::bad_input));
}

}  // namespace barm::service

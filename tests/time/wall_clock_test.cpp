#include "time/wall_clock.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/matchers.h"

namespace barm::time {

using test::FailsWith;
using test::Holds;

namespace {

using testing::HasSubstr;

WallClock clock_of(const char* mixed, const char* zone = "Europe/Berlin") {
  return WallClock::mixed(mixed, Zone::named(zone).value()).value();
}

double hours(const Result<Time>& time) { return time ? time->in(hour) : -1e9; }

TEST(WallClock, CountsFromALocalDayAndTime) {
  const WallClock clock = clock_of("2026-11-28T07:00");  // a Saturday
  EXPECT_EQ(clock.moment(8.5 * hour), "Sat 15:30");
  EXPECT_EQ(clock.short_moment(8.5 * hour), "15:30");
  EXPECT_EQ(clock.short_moment(20.0 * hour), "Sun 03:00");
  EXPECT_EQ(clock.moment(-8.0 * hour), "Fri 23:00");
  EXPECT_EQ(clock.iso(8.6 * hour), "2026-11-28T15:36");
  EXPECT_EQ(clock.iso(96.0 * hour), "2026-12-02T07:00");
}

TEST(WallClock, CountsFromATimeOfDayOrFromMixing) {
  EXPECT_EQ(clock_of("22:00").moment(8.0 * hour), "06:00 next day");
  EXPECT_EQ(clock_of("22:00").short_moment(8.0 * hour), "06:00 +1d");
  EXPECT_EQ(clock_of("22:00").moment(32.0 * hour), "06:00, 2 days on");
  EXPECT_EQ(WallClock().moment(8.5 * hour), "8 h 30 after mixing");
  EXPECT_EQ(clock_of("22:00").iso(1.0 * hour), "");
  for (const char* text : {"2026-13-28T07:00", "soon", "25:00"})
    EXPECT_THAT(WallClock::mixed(text, Zone::fixed(0)), FailsWith(ErrorCode::bad_input)) << text;
}

// A moment is rounded on the clock, so that every view that names it names the same quarter.
TEST(WallClock, RoundsOnTheClockAndLeavesMixingAsItWas) {
  const WallClock clock = clock_of("2026-11-28T07:05");
  EXPECT_EQ(clock.moment(0.0 * hour), "Sat 07:05");
  EXPECT_EQ(clock.moment(8.0 * hour), "Sat 15:00");
  EXPECT_EQ(clock.moment(8.1 * hour), "Sat 15:15");
}

// Europe/Berlin puts the clock back at 03:00 on 25 October 2026 and forward at 02:00 on 29 March
// 2026.
TEST(WallClock, KnowsTheNightsInWhichClocksChange) {
  EXPECT_EQ(clock_of("2026-10-24T22:00").moment(9.0 * hour), "Sun 06:00");
  EXPECT_EQ(clock_of("2026-03-28T22:00").moment(9.0 * hour), "Sun 08:00");
  EXPECT_EQ(clock_of("2026-10-24T22:00").iso(5.0 * hour), "2026-10-25T02:00");
  EXPECT_NEAR(clock_of("2026-10-24T22:00").next("06:00", 0.0 * hour)->in(hour), 9, 1e-9);
  EXPECT_THAT(WallClock::mixed("2026-03-29T02:30", *Zone::named("Europe/Berlin")),
              FailsWith(ErrorCode::bad_input));
}

TEST(WallClock, ReadsAReadingAcrossAClockThatIsPutBack) {
  const WallClock clock = clock_of("2026-10-24T22:00");
  EXPECT_NEAR(hours(clock.since_mixing("2026-10-25 02:30", 3.5 * hour)), 4.5, 1e-9);
  EXPECT_NEAR(hours(clock.since_mixing("2026-10-25 02:30", 5.0 * hour)), 5.5, 1e-9);
  EXPECT_NEAR(hours(clock.since_mixing("03:30", 5.5 * hour)), 6.5, 1e-9);
}

TEST(WallClock, ReadingsGoOnPastMidnightAndNeverBeforeMixing) {
  EXPECT_NEAR(hours(clock_of("19:00").since_mixing("08:00", 0.0 * hour)), 13, 1e-9);
  EXPECT_NEAR(hours(clock_of("2026-11-28T19:00").since_mixing("08:00", 0.0 * hour)), 13, 1e-9);
  EXPECT_NEAR(hours(clock_of("2026-11-28T19:00").since_mixing("08:00", 13.0 * hour)), 13, 1e-9);
  EXPECT_NEAR(hours(clock_of("2026-11-28T20:00").since_mixing("00:30", 3.5 * hour)), 4.5, 1e-9);
  EXPECT_NEAR(hours(clock_of("2026-11-28T07:00").since_mixing("07:00", 0.0 * hour)), 0, 1e-9);
  // What is typed out of order is left where it stands, for the reader to refuse.
  EXPECT_NEAR(hours(clock_of("2026-11-28T07:00").since_mixing("14:00", 7.5 * hour)), 7, 1e-9);
}

TEST(WallClock, SaysWhatIsWrongWithAReading) {
  const auto refused = [](const WallClock& clock, const char* text) {
    const auto at = clock.since_mixing(text, 0.0 * hour);
    return at ? std::string("taken") : at.error().message;
  };
  EXPECT_THAT(refused(WallClock(), "14:30"), HasSubstr("when was it mixed?"));
  EXPECT_THAT(refused(clock_of("07:00"), "2026-11-28T14:30"), HasSubstr("the mixing has none"));
  EXPECT_THAT(refused(clock_of("2026-11-28T07:00"), "half past"), HasSubstr("is no time"));
  EXPECT_THAT(refused(clock_of("2026-03-28T22:00"), "2026-03-29T02:30"),
              HasSubstr("did not exist"));
}

TEST(WallClock, ADeadlineIsTheNextOfItsHour) {
  const WallClock clock = clock_of("2026-11-28T07:00");
  EXPECT_NEAR(clock.next("06:00", 0.0 * hour)->in(hour), 23, 1e-9);
  EXPECT_NEAR(clock.next("06:00", 23.0 * hour)->in(hour), 47, 1e-9);
  EXPECT_NEAR(clock.next("2026-11-29T06:00", 0.0 * hour)->in(hour), 23, 1e-9);
  EXPECT_FALSE(clock.next("soon", 0.0 * hour));
  EXPECT_FALSE(WallClock().next("06:00", 0.0 * hour));
  EXPECT_FALSE(clock_of("07:00").next("2026-11-29T06:00", 0.0 * hour));
}

}  // namespace

}  // namespace barm::time

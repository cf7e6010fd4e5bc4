#include "time/zone.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/in_central_europe.h"
#include "support/matchers.h"

namespace barm::time {

using test::FailsWith;
using test::Holds;

namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Instant at(const char* text) { return parse_instant(text).value(); }

LocalTime wall(const char* text) { return parse_local(text).value(); }

// Clocks of the European Union change on the last Sundays of March and October at 01:00 UTC
// (Directive 2000/84/EC): in 2026 on 29 March and 25 October.
void holds_in_berlin(const Zone& zone) {
  EXPECT_EQ(zone.local(at("2026-10-24T20:00Z")).text(), "2026-10-24T22:00");
  EXPECT_EQ(zone.local(at("2026-10-25T05:00Z")).text(), "2026-10-25T06:00");
  EXPECT_THAT(zone.instants(wall("2026-10-25T02:30")),
              ElementsAre(at("2026-10-25T00:30Z"), at("2026-10-25T01:30Z")));
  EXPECT_THAT(zone.instants(wall("2026-10-25T03:00")), ElementsAre(at("2026-10-25T02:00Z")));
  EXPECT_THAT(zone.instants(wall("2026-03-29T02:30")), IsEmpty());
  EXPECT_EQ(zone.instant(wall("2026-03-29T02:30")), at("2026-03-29T01:30Z"));
  EXPECT_EQ(zone.instant(wall("2026-10-25T02:30")), at("2026-10-25T00:30Z"));
  EXPECT_THAT(zone.instants(wall("2026-07-01T12:00")), ElementsAre(at("2026-07-01T10:00Z")));
}

TEST(Zone, KnowsTheNightsInWhichClocksChange) {
  const auto berlin = Zone::named("Europe/Berlin");
  ASSERT_THAT(berlin, Holds());
  holds_in_berlin(*berlin);
}

TEST(Zone, OfTheMachineKnowsThemToo) {
  const test::InCentralEurope here;
  holds_in_berlin(Zone());
}

TEST(Zone, NoonIsADayFromNoonWhateverTheClockDoes) {
  const auto berlin = Zone::named("Europe/Berlin");
  ASSERT_THAT(berlin, Holds());
  EXPECT_EQ(berlin->noon(at("2026-10-24T22:30Z"), 0), at("2026-10-25T11:00Z"));
  EXPECT_EQ(berlin->noon(at("2026-10-24T08:00Z"), 1), at("2026-10-25T11:00Z"));
  EXPECT_EQ(berlin->noon(at("2026-03-28T23:30Z"), -1), at("2026-03-28T11:00Z"));
}

TEST(Zone, IsFoundByTheNameOfItsRulesAlone) {
  // All but the first are files that hold zone rules.
  for (const char* name : {"Atlantis/Main",
                           "../zoneinfo/Europe/Berlin",
                           "",
                           "/usr/share/zoneinfo/Europe/Berlin",
                           "file:/usr/share/zoneinfo/Europe/Berlin"}) {
    EXPECT_THAT(Zone::named(name), FailsWith(ErrorCode::not_found)) << name;
  }
}

// In every hour of two years a moment is among those at which the wall shows what it shows then.
TEST(Zone, GoesThereAndBackInEveryHour) {
  for (const char* name : {"Europe/Berlin",
                           "America/New_York",
                           "Pacific/Auckland",
                           "Australia/Lord_Howe",
                           "Asia/Kathmandu"}) {
    const auto zone = Zone::named(name);
    ASSERT_THAT(zone, Holds());
    for (Instant moment = at("2026-01-01T00:00Z"); moment < at("2028-01-01T00:00Z");
         moment = moment + 1800) {
      EXPECT_THAT(zone->instants(zone->local(moment)), testing::Contains(moment)) << name;
    }
  }
}

}  // namespace

}  // namespace barm::time

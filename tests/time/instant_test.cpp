#include "time/instant.h"

#include <gtest/gtest.h>

namespace barm::time {

namespace {

// RFC 3339, section 5.8: examples of what is one moment said in two ways.
TEST(Instant, IsReadWithItsOffset) {
  ASSERT_TRUE(parse_instant("1996-12-19T16:39:57-08:00"));
  EXPECT_EQ(parse_instant("1996-12-19T16:39:57-08:00"), parse_instant("1996-12-20T00:39:57Z"));
  EXPECT_EQ(parse_instant("1985-04-12T23:20:50.52Z")->text(), "1985-04-12T23:20:50Z");
  EXPECT_EQ(parse_instant("1937-01-01T12:00:27.87+00:20")->text(), "1937-01-01T11:40:27Z");
  EXPECT_EQ(parse_instant("2026-11-28 07:00+0100")->text(), "2026-11-28T06:00:00Z");
}

TEST(Instant, IsNothingElse) {
  for (const char* text : {"",
                           "Z",
                           "2026-11-28",
                           "2026-11-28T07:00",
                           "2026-02-29T07:00Z",
                           "07:00Z",
                           "2026-11-28T24:00Z",
                           "2026-11-28T07:60Z",
                           "2026-11-28T07:00+1:00",
                           "1899-12-31T23:00Z",
                           "2200-01-01T00:00Z",
                           "2026-11-28T07:00Z "}) {
    EXPECT_FALSE(parse_instant(text)) << text;
  }
}

TEST(Instant, CountsInSeconds) {
  const Instant at{1795863600};
  EXPECT_EQ((at + 90.0 * minute).seconds, at.seconds + 5400);
  EXPECT_NEAR((at - (at - 5400)).in(hour), 1.5, 1e-12);
  EXPECT_EQ(Instant{-1}.text(), "1969-12-31T23:59:59Z");
}

}  // namespace

}  // namespace barm::time

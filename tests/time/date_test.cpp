#include "time/date.h"

#include <gtest/gtest.h>

namespace barm::time {

namespace {

TEST(Date, CountsDaysAcrossLeapYears) {
  const auto days = [](const char* from, const char* to) {
    return parse_date(to).value().days - parse_date(from).value().days;
  };
  EXPECT_EQ(days("2026-11-20", "2026-11-25"), 5);
  EXPECT_EQ(days("2024-02-28", "2024-03-01"), 2);
  EXPECT_EQ(days("2100-02-28", "2100-03-01"), 1);
  EXPECT_EQ(days("1999-12-31", "2000-12-31"), 366);
  EXPECT_EQ(parse_date("1970-01-01")->days, 0);
}

TEST(Date, KnowsItsNameAndText) {
  const auto date = parse_date("2026-11-28");
  ASSERT_TRUE(date);
  EXPECT_EQ(date->weekday(), "Sat");
  EXPECT_EQ(date->in_words(), "28 Nov 2026");
  EXPECT_EQ(date->text(), "2026-11-28");
}

TEST(Date, IsNoOtherText) {
  for (const char* text : {"",
                           "2026-11-31",
                           "2026-13-01",
                           "2026-00-01",
                           "26-11-28",
                           "2026-11-28T",
                           "2026/11/28",
                           "0000-01-01"}) {
    EXPECT_FALSE(parse_date(text)) << text;
  }
}

}  // namespace

}  // namespace barm::time

#include "time/span.h"

#include <gtest/gtest.h>

namespace barm::time {

namespace {

TEST(Span, IsSaidToTheQuarterHour) {
  EXPECT_EQ(span(5.0 * hour + 14.0 * minute), "5 h 15");
  EXPECT_EQ(span(5.0 * hour), "5 h");
  EXPECT_EQ(span(40.0 * minute), "45 min");
  EXPECT_EQ(span(5.0 * minute), "under 15 min");
  EXPECT_EQ(span(60.3 * hour), "60 h");
}

}  // namespace

}  // namespace barm::time

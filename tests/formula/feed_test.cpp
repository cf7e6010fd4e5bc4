#include "formula/feed.h"

#include <gmock/gmock.h>

#include "../support/matchers.h"

namespace barm::formula {
namespace {

using barm::test::FailsWith;
using barm::test::Holds;

TEST(Feed, IsThreePartsByWeight) {
  const auto feed = parse_feed(" 0.5 : 2,5:1");
  ASSERT_THAT(feed, Holds());
  EXPECT_EQ(feed->ripe, 0.5);
  EXPECT_EQ(feed->flour, 2.5);
  EXPECT_EQ(feed->water, 1);
}

TEST(Feed, IsNothingElse) {
  for (const char* text : {"", "1:2", "1:2:1:1", "1:2:x", "0:2:1", "1:-2:1", "1:2:1 g", "1:2001:1"})
    EXPECT_THAT(parse_feed(text), FailsWith(ErrorCode::bad_input)) << text;
}

}  // namespace
}  // namespace barm::formula

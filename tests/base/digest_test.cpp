#include "base/digest.h"

#include <gtest/gtest.h>

namespace barm {
namespace {

// Published with the method: 64 bits, FNV-1a (remembered).
TEST(Digest, IsFnv1a) {
  EXPECT_EQ(digest(""), "cbf29ce484222325");
  EXPECT_EQ(digest("a"), "af63dc4c8601ec8c");
  EXPECT_EQ(digest("foobar"), "85944171f73967e8");
}

}  // namespace
}  // namespace barm

#include "base/markup.h"

#include <gtest/gtest.h>

namespace barm {

namespace {

TEST(Escaped, LeavesNoMarkup) {
  EXPECT_EQ(escaped("<a href=\"x\">'&"), "&lt;a href=&quot;x&quot;&gt;&#39;&amp;");
}

TEST(Escaped, LeavesNoControlCharacters) {
  EXPECT_EQ(escaped(std::string("a\x01"
                                "b\x1b")),
            "ab");
}

}  // namespace

}  // namespace barm

#include "formula/words.h"

#include <gmock/gmock.h>

namespace barm::formula {

namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

TEST(Words, CountsEdits) {
  EXPECT_EQ(edits("mead", "mead"), 0U);
  EXPECT_EQ(edits("meade", "mead"), 1U);
  EXPECT_EQ(edits("sitting", "kitten"), 3U);
  EXPECT_EQ(edits("", "abc"), 3U);
}

TEST(Words, NearestComesFirst) {
  EXPECT_THAT(near_words("tmeperature", {"after", "temperature", "where"}),
              ElementsAre("temperature"));
  EXPECT_THAT(near_words("pice", {"pieces", "price", "piece"}),
              ElementsAre("price", "piece", "pieces"));
  EXPECT_THAT(near_words("zzzzzz", {"price"}), IsEmpty());
  EXPECT_THAT(near_words(std::string(1000, 'p'), {"price"}), IsEmpty());
}

TEST(Words, FoldsCaseAndBlanks) { EXPECT_EQ(folded("  Dry\t  MEAD "), "dry mead"); }

}  // namespace

}  // namespace barm::formula

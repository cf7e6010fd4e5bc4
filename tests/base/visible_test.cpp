#include "base/visible.h"

#include <gtest/gtest.h>

namespace barm {

namespace {

TEST(Visible, LeavesWhatIsToBeRead) {
  for (const char* text : {"", "plain", "Jörðin", "Brot 麦", "two\nlines", "👍"})
    EXPECT_EQ(visible(text), text);
}

TEST(Visible, ShowsControlCharactersInsteadOfSendingThem) {
  EXPECT_EQ(visible("\x1b[2Jgone"), "␛[2Jgone");
  EXPECT_EQ(visible("a\r\tb\x7f"), "a␍␉b␡");
  EXPECT_EQ(visible(std::string_view("\0", 1)), "␀");
  EXPECT_EQ(visible("\xC2\x9B"
                    "2J"),
            "�2J");
  EXPECT_EQ(visible("\xE2\x80\xAE"
                    "txt"),
            "�txt")
      << "a name that reads backwards";
}

TEST(Visible, ShowsBytesThatAreNoText) {
  EXPECT_EQ(visible("m\xE9li"), "m�li");
  EXPECT_EQ(visible("\xC0\xAF"), "��") << "an overlong form";
  EXPECT_EQ(visible("\xED\xA0\x80"), "���") << "half a surrogate pair";
  EXPECT_EQ(visible("\xF4\x90\x80\x80"), "����") << "over the last character";
  EXPECT_EQ(visible("\xE2\x82"), "��") << "cut short";
}

}  // namespace

}  // namespace barm

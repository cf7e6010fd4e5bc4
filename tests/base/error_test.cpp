#include "base/error.h"

#include <gtest/gtest.h>

#include <set>

namespace barm {

namespace {

constexpr ErrorCode all_codes[] = {ErrorCode::bad_input,
                                   ErrorCode::not_found,
                                   ErrorCode::cannot_be_met,
                                   ErrorCode::no_convergence,
                                   ErrorCode::cancelled,
                                   ErrorCode::conflict,
                                   ErrorCode::unavailable};

TEST(Error, TextNamesThePlaceFirst) {
  const Error error{ErrorCode::bad_input, "mead.toml:14:9", "\"meade\" is not in the larder"};
  EXPECT_EQ(error.text(), "mead.toml:14:9  \"meade\" is not in the larder");
}

TEST(Error, TextWithoutAPlaceIsTheMessageAlone) {
  EXPECT_EQ((Error{ErrorCode::not_found, "", "no such file"}.text()), "no such file");
}

TEST(Error, AtAPlaceInAFileKeepsItsLineAndColumn) {
  const Error error = error_at({"mead.toml", 14, 9}, ErrorCode::bad_input, "is no flour");
  EXPECT_EQ(error.text(), "mead.toml:14:9  is no flour");
  EXPECT_EQ(error.line, 14);
  EXPECT_EQ(error.column, 9);
  EXPECT_EQ(error_at({"mead.toml"}, ErrorCode::bad_input, "is empty").where, "mead.toml");
}

TEST(Error, EveryCodeHasItsOwnNameAndStatus) {
  std::set<std::string> names;
  std::set<int> exits;
  for (const ErrorCode code : all_codes) {
    names.insert(name(code));
    exits.insert(exit_status(code));
    EXPECT_NE(exit_status(code), 0);
    EXPECT_GE(http_status(code), 400);
  }
  EXPECT_EQ(names.size(), std::size(all_codes));
  EXPECT_EQ(exits.size(), std::size(all_codes));
}

TEST(Error, AConflictIsAFourHundredAndNineAndAFullDiskIsNoFaultOfTheAsker) {
  EXPECT_EQ(exit_status(ErrorCode::conflict), 6);
  EXPECT_EQ(http_status(ErrorCode::conflict), 409);
  EXPECT_EQ(exit_status(ErrorCode::unavailable), 7);
  EXPECT_EQ(http_status(ErrorCode::unavailable), 503);
}

TEST(Error, AMistakeOfTheUserIsAFourHundred) {
  EXPECT_EQ(exit_status(ErrorCode::bad_input), 2);
  EXPECT_EQ(http_status(ErrorCode::bad_input), 400);
  EXPECT_EQ(name(ErrorCode::bad_input), "bad_input");
}

}  // namespace

}  // namespace barm

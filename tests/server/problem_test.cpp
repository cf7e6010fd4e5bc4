#include "server/door/problem.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace barm::server {
namespace {

nlohmann::json said(const Error& error) { return nlohmann::json::parse(problem(error).body); }

TEST(Problem, NamesTheLineAndColumnOfAnErrorInAFile) {
  const auto out = said(error_at({"bake", 14, 9}, ErrorCode::bad_input, "is no flour"));
  EXPECT_EQ(out.at("where"), "bake:14:9");
  EXPECT_EQ(out.at("line"), 14);
  EXPECT_EQ(out.at("column"), 9);
}

// The words are for people: nothing is read out of them.
TEST(Problem, TakesNoLineFromItsWords) {
  const auto out = said(Error{ErrorCode::bad_input, "house:12:3", "is none"});
  EXPECT_EQ(out.at("where"), "house:12:3");
  EXPECT_FALSE(out.contains("line"));
}

}  // namespace
}  // namespace barm::server

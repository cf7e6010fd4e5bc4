// What the long checks wrote down last: every miss has its reason, and every reason is of a miss.
#include "support/known_misses.h"

#include <gmock/gmock.h>

#include <set>
#include <sstream>
#include <vector>

namespace barm {

namespace {

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream in(line);
  for (std::string cell; std::getline(in, cell, '\t');) cells.push_back(cell);
  return cells;
}

TEST(KnownMisses, AreThoseOfTheLongChecks) {
  std::set<std::string> missed;
  for (const char* name : {"figures.tsv", "sound.tsv"}) {
    std::ifstream file(std::string(BARM_ROOT "/studies/") + name);
    ASSERT_TRUE(file) << name;
    for (std::string line; std::getline(file, line);) {
      if (line.starts_with('#')) continue;
      const auto cells = cells_of(line);
      ASSERT_EQ(cells.size(), 7U) << line;
      if (cells[6] == "no") missed.insert(cells[1]);
    }
  }
  std::set<std::string> named;
  for (const auto& [what, why] : test::known_misses()) {
    EXPECT_GT(why.size(), 20U) << what;
    named.insert(what);
  }
  EXPECT_EQ(named, missed);
}

/// What is said of a target, or nothing where it is as known.
std::string said_of(const std::string& what, bool met) {
  testing::internal::CaptureStderr();
  const bool good = test::as_known(what, met);
  const std::string said = testing::internal::GetCapturedStderr();
  EXPECT_EQ(good, said.empty());
  return said;
}

TEST(KnownMisses, StandForNothingElse) {
  EXPECT_THAT(said_of("a new target", false), testing::HasSubstr("why stands nowhere"));
  EXPECT_EQ(said_of("a new target", true), "");
  const auto& known = test::known_misses();
  ASSERT_FALSE(known.empty());
  EXPECT_EQ(said_of(known.begin()->first, false), "");
  EXPECT_THAT(said_of(known.begin()->first, true), testing::HasSubstr("is met now"));
}

}  // namespace

}  // namespace barm

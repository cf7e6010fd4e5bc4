// What the long checks wrote down last: every miss has its reason, and every reason is of a miss.
#include "support/known_misses.h"

#include <gtest/gtest.h>

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

TEST(KnownMisses, StandForNothingElse) {
  EXPECT_FALSE(test::as_known("a target nobody has missed", false));
  EXPECT_TRUE(test::as_known("a target nobody has missed", true));
  const auto& known = test::known_misses();
  ASSERT_FALSE(known.empty());
  EXPECT_TRUE(test::as_known(known.begin()->first, false));
  EXPECT_FALSE(test::as_known(known.begin()->first, true));
}

}  // namespace

}  // namespace barm

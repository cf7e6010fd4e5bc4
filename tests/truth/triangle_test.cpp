// The triangle test against the tables of ISO 4120, which were not looked up again: the values are
// from memory, and where memory and the exact binomial (checked against R in
// tests/testbakes/triangle_test.cpp) agree the memory is likely to be good.
#include "testbakes/triangle.h"

#include <gmock/gmock.h>

#include "support/validation.h"

namespace barm::testbakes {

namespace {

constexpr const char* from_memory = "ISO 4120, from memory";

void compare(const std::string& what, int theirs, int ours) {
  EXPECT_EQ(ours, theirs) << what;
  test::record(
      "Triangle test", what, from_memory, std::to_string(theirs), ours, "people", ours == theirs);
}

TEST(Iso4120, LeastNumberOfRightAnswersAtFivePercent) {
  for (const auto& [tasters, right] : {std::pair{6, 5},
                                       {12, 8},
                                       {18, 10},
                                       {24, 13},
                                       {30, 15},
                                       {36, 18},
                                       {42, 20},
                                       {48, 22},
                                       {54, 25},
                                       {60, 27}}) {
    compare("right answers needed of " + std::to_string(tasters) + ", 5 %",
            right,
            right_needed(tasters, 0.05));
  }
}

TEST(Iso4120, TastersForAPower) {
  struct Row {
    double tell, beta;
    int tasters;
  };

  for (const Row& row : {Row{0.5, 0.2, 16},
                         Row{0.5, 0.1, 20},
                         Row{0.5, 0.05, 23},
                         Row{0.3, 0.05, 66},
                         Row{0.2, 0.2, 87},
                         Row{0.2, 0.1, 117},
                         Row{0.2, 0.05, 147},
                         Row{0.1, 0.2, 325},
                         Row{0.1, 0.05, 572}}) {
    compare("tasters, " + std::to_string(static_cast<int>(100 * row.tell + 0.5)) +
                " % can tell, beta " + std::to_string(row.beta).substr(0, 4) + ", alpha 0.05",
            row.tasters,
            tasters_needed(row.tell, 1 - row.beta, 0.05));
  }
}

}  // namespace

}  // namespace barm::testbakes

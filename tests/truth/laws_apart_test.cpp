// How far two textbook laws of growth part that fit the same rise so far, on the doughs of
// landis2021 (tools/oracle/laws_apart.py): the doubt of our own law beyond the last reading is no
// guess.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

#include "estimation/dough_to_read.h"
#include "support/command.h"
#include "support/validation.h"

namespace barm::estimation {
namespace {

TEST(LawsApart, IsTheDoubtOfOurLaw) {
  const std::string root = BARM_ROOT;
  std::istringstream said(test::output_of(fmt::format(
      "/usr/bin/python3 '{0}/tools/oracle/laws_apart.py' '{0}/data/evidence/curves_landis2021.csv'",
      root)));
  int stages = 0;
  double share = 0;
  double apart = 0;
  int tubes = 0;
  while (said >> share >> apart >> tubes) {
    ++stages;
    ASSERT_GE(tubes, 20);
    EXPECT_NEAR(apart, Pace{}.laws_apart, 0.05) << share;
    test::record("fitting",
                 fmt::format("half the distance of two laws in ln(hours ahead), looked at up to {} "
                             "of the time, median of {} tubes",
                             share,
                             tubes),
                 "Gompertz and logistic (Zwietering 1990) on doughs of landis2021",
                 fmt::format("{:.3f}", apart),
                 Pace{}.laws_apart,
                 "",
                 std::abs(apart - Pace{}.laws_apart) < 0.05);
  }
  EXPECT_EQ(stages, 3);
}

}  // namespace
}  // namespace barm::estimation

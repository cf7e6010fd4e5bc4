// The verdict on simulated test bakes: designs fixed beforehand, truths from the priors, runs with
// odd numbers by a growth law that the model does not know. How often it is right and wrong is for
// testbake_study_long_test.cpp; here one run of each cause, in which the right verdict is known.
//
// They fail when the evidence is weighed wrongly: without the determinant of Laplace's formula, or
// with a cause named from even odds on, a wrong cause is named.
#include <gmock/gmock.h>

#include "testbakes/simulated.h"

namespace barm::testbakes {

namespace {

constexpr int one_of_each_cause[] = {0, 3, 4};

TEST(SimulatedTestBakes, FullFactorialNamesTheRightCause) {
  const auto tally = test::tally(test::designs()[0], one_of_each_cause, 20261125);
  EXPECT_EQ(tally.right, 3);
  EXPECT_EQ(tally.wrong, 0);
}

TEST(SimulatedTestBakes, AliasedDesignIsNeverDecided) {
  const auto tally = test::tally(test::designs()[1], one_of_each_cause, 7);
  EXPECT_EQ(tally.undecided, 3);
}

// Doughs scatter by a tenth: three of them on two days hardly ever tell anything, but nothing
// wrong.
TEST(SimulatedTestBakes, ThreeDoughsNameNothingWrong) {
  const auto tally = test::tally(test::designs()[2], one_of_each_cause, 42);
  EXPECT_EQ(tally.wrong, 0);
  EXPECT_GE(tally.undecided, 2);
}

// Acid and alcohol can be told, sulphite cannot be told from something else in the wine.
TEST(SimulatedTestBakes, FourDoughsNameNoWrongCause) {
  const auto tally = test::tally(test::designs()[3], one_of_each_cause, 43);
  EXPECT_GE(tally.right, 1);
  EXPECT_EQ(tally.wrong, 0);
}

}  // namespace

}  // namespace barm::testbakes

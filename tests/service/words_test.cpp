#include "service/words.h"

#include <gtest/gtest.h>

namespace barm::service {

namespace {

TEST(Weight, IsSaidAsAScaleShowsIt) {
  EXPECT_EQ(weight(3060.2 * gram), "3060 g");
  EXPECT_EQ(weight(61.4 * gram), "61 g");
  EXPECT_EQ(weight(4.52 * gram), "4.5 g");
  EXPECT_EQ(weight(0.25 * gram), "0.25 g");
  EXPECT_EQ(weight(12400.0 * gram), "12.4 kg");
}

TEST(Odds, AreSaidInSmallNumbers) {
  EXPECT_EQ(odds(Probability(0.02), 400), "1 in 50");
  EXPECT_EQ(odds(Probability(0.25), 400), "1 in 4");
  EXPECT_EQ(odds(Probability(0.8), 400), "4 in 5");
  EXPECT_EQ(odds(Probability(0.98), 400), "49 in 50");
  EXPECT_EQ(odds(Probability(0), 400), "under 1 in 100");
  EXPECT_EQ(odds(Probability(0), 60), "under 1 in 60");
  EXPECT_EQ(odds(Probability(1), 400), "over 99 in 100");
  EXPECT_EQ(odds(Probability(1.0 / 90), 400), "1 in 90");
  EXPECT_EQ(odds(Probability(1e-5), 400), "under 1 in 100");
  EXPECT_EQ(odds(Probability(1 - 1e-5), 400), "over 99 in 100");
}

TEST(Warmth, IsSaidToHalfADegree) {
  EXPECT_EQ(warmth(Temperature::from_celsius(24.1)), "24 °C");
  EXPECT_EQ(warmth(Temperature::from_celsius(24.4)), "24.5 °C");
}

}  // namespace

}  // namespace barm::service

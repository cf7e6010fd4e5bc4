#include "chemistry/sulphite.h"

#include <gtest/gtest.h>

namespace barm::chemistry {

namespace {

TEST(Sulphite, PkIsAStraightLineInStrengthAndWarmth) {
  EXPECT_NEAR(sulphite_pk(AlcoholByVolume(0), Temperature::from_celsius(20)), 1.800, 1e-12);
  EXPECT_NEAR(sulphite_pk(AlcoholByVolume::from_percent(10), Temperature::from_celsius(25)),
              1.800 + 0.197 + 0.203,
              1e-12);
}

// Half at pH 4.76, an eleventh a unit above.
TEST(Sulphite, SorbicShare) {
  EXPECT_NEAR(undissociated_sorbic_share(Ph(4.76)), 0.5, 1e-12);
  EXPECT_NEAR(undissociated_sorbic_share(Ph(5.76)), 1.0 / 11, 1e-12);
}

}  // namespace

}  // namespace barm::chemistry

// 21 CFR 101.9(b) and 101.12(b): 50 g is the reference amount of bread; from memory.
#include "shop/serving.h"

#include <gtest/gtest.h>

namespace barm::shop {

namespace {

TEST(Serving, IsAUnitAShareOrSlices) {
  struct Row {
    double piece;
    int slices;
    const char *measure, *number;
    double grams;
    bool whole_too;
  };

  constexpr Row rows[] = {
      {60, 0, "1 roll", "1", 60, false},            // 120 % of 50 g: one unit
      {99, 0, "1 roll", "1", 99, false},            // under 200 %
      {100, 0, "1/2 roll", "2", 50, true},          // 200 %: a column for the whole too
      {150, 0, "1/3 roll", "3", 50, true},          // 300 %
      {160, 0, "1/3 loaf", "3", 160.0 / 3, false},  // above
      {800, 0, "1/16 loaf", "16", 50, false},
      {720, 16, "1 slice", "16", 45, false},
      {400, 20, "3 slices", "about 7", 60, false},  // 20 / 3
      {400, 18, "2 slices", "9", 800.0 / 18, false},
  };
  for (const Row& row : rows) {
    const Serving made = us_serving(row.piece * gram, row.slices, Mass());
    EXPECT_EQ(made.measure, row.measure) << row.piece;
    EXPECT_EQ(made.number, row.number) << row.piece;
    EXPECT_NEAR(made.mass.in(gram), row.grams, 1e-9) << row.piece;
    EXPECT_EQ(made.whole_too, row.whole_too) << row.piece;
  }
}

TEST(Serving, IsNotKnownOfALoafOfUnknownWeight) {
  EXPECT_EQ(us_serving(Mass(), 0, Mass()).measure, "");
  EXPECT_NEAR(us_serving(Mass(), 0, Mass()).mass.in(gram), 50, 1e-9);
}

}  // namespace

}  // namespace barm::shop

#include "base/result.h"

#include <gtest/gtest.h>

#include "support/matchers.h"

namespace barm {

namespace {

using test::FailsWith;
using test::Holds;

Result<int> half(int value) {
  if (value % 2 != 0) return failure(ErrorCode::bad_input, "value", "is odd");
  return value / 2;
}

Result<int> quarter(int value) {
  const Result<int> once = half(value);
  if (!once) return failure(once);
  return half(*once);
}

TEST(Result, HoldsTheValueOfASuccess) {
  ASSERT_THAT(half(4), Holds());
  EXPECT_EQ(*half(4), 2);
}

TEST(Result, CarriesTheErrorOfAFailure) {
  EXPECT_THAT(half(3), FailsWith(ErrorCode::bad_input));
  EXPECT_EQ(half(3).error().text(), "value  is odd");
}

TEST(Result, PassesAnErrorOnUnchanged) {
  EXPECT_EQ(quarter(3).error().text(), "value  is odd");
  EXPECT_THAT(quarter(6), FailsWith(ErrorCode::bad_input));
  EXPECT_EQ(*quarter(8), 2);
}

}  // namespace

}  // namespace barm

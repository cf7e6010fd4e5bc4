#include "units/fraction.h"

#include <gtest/gtest.h>

#include <type_traits>

#include "support/printers.h"
#include "units/units.h"
#include "units/what_does_not_compile.h"

namespace barm {

namespace {

using test::Addable;
using test::Assignable;
using test::Comparable;

// A share of mass is not a share of volume, and neither is a plain number.
static_assert(!Addable<MassFraction, AlcoholByVolume>);
static_assert(!Addable<MassFraction, double>);
static_assert(!Comparable<MassFraction, MoleFraction>);
static_assert(!Assignable<BakersFraction&, MassFraction>);
static_assert(!std::is_constructible_v<MassFraction, AlcoholByVolume>);
static_assert(!std::is_convertible_v<double, MassFraction>);
static_assert(!std::is_convertible_v<MassFraction, double>);
static_assert(!std::is_convertible_v<double, Ph>);
static_assert(!Addable<Ph, Ph>);
static_assert(!Comparable<Ph, MassFraction>);
static_assert(Addable<MassFraction, MassFraction>);

TEST(Fraction, GoesToPercentAndBack) {
  EXPECT_DOUBLE_EQ(AlcoholByVolume::from_percent(12.5).value(), 0.125);
  EXPECT_DOUBLE_EQ(AlcoholByVolume(0.125).percent(), 12.5);
}

TEST(Fraction, AddsSubtractsAndScales) {
  const auto sum = MassFraction(0.3) + MassFraction(0.2) - MassFraction(0.1);
  EXPECT_DOUBLE_EQ(sum.value(), 0.4);
  EXPECT_DOUBLE_EQ((0.5 * sum).value(), 0.2);
}

TEST(Fraction, Compares) { EXPECT_LT(MassFraction(0.1), MassFraction(0.2)); }

TEST(Ph, LowerIsLess) {
  EXPECT_LT(Ph(3.2), Ph(6.1));
  EXPECT_EQ(Ph().value(), 7);
}

}  // namespace

}  // namespace barm

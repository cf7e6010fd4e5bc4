#include "units/quantity.h"

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
using test::Subtractable;

// What must not compile.
static_assert(!Addable<Mass, Volume>);
static_assert(!Addable<Mass, double>);
static_assert(!Subtractable<Amount, Mass>);
static_assert(!Comparable<Mass, Volume>);
static_assert(!Assignable<Mass&, double>);
static_assert(!Assignable<Volume&, Mass>);
static_assert(!std::is_convertible_v<double, Mass>);
static_assert(!std::is_convertible_v<Mass, double>);
static_assert(!std::is_constructible_v<Mass, double>);

// What must.
static_assert(Addable<Mass, Mass>);
static_assert(std::is_convertible_v<double, Scalar>);
static_assert(std::is_same_v<decltype(1.0 * kilogram / litre), Density>);
static_assert(std::is_same_v<decltype(1.0 * mole / kilogram), Molality>);
static_assert(std::is_same_v<decltype(1.0 / second), Rate>);
static_assert(std::is_same_v<decltype(kilogram / kilogram), Scalar>);

TEST(Quantity, LeavesInTheUnitThatIsNamed) {
  EXPECT_DOUBLE_EQ((1.5 * kilogram).in(gram), 1500);
  EXPECT_DOUBLE_EQ((750.0 * millilitre).in(litre), 0.75);
  EXPECT_DOUBLE_EQ((1.0 * pound).in(ounce), 16);
  EXPECT_DOUBLE_EQ((36.0 * hour).in(day), 1.5);
}

TEST(Quantity, AGramInALitreIsAKilogramInACubicMetre) {
  EXPECT_DOUBLE_EQ((1.0 * gram / litre).si(), (1.0 * kilogram / cubic_metre).si());
}

TEST(Quantity, AddsSubtractsAndScales) {
  Mass flour = 1.0 * kilogram;
  flour += 250.0 * gram;
  flour -= 50.0 * gram;
  EXPECT_DOUBLE_EQ(flour.in(gram), 1200);
  EXPECT_DOUBLE_EQ((flour + flour - 2.0 * flour).si(), 0);
  EXPECT_DOUBLE_EQ((-flour / 2.0).in(gram), -600);
  EXPECT_DOUBLE_EQ((flour * 0.5).in(gram), 600);
}

TEST(Quantity, AQuotientOfLikesIsAPlainNumber) {
  const double ratio = (700.0 * gram) / (1.0 * kilogram);
  EXPECT_DOUBLE_EQ(ratio, 0.7);
}

TEST(Quantity, Compares) {
  EXPECT_LT(999.0 * gram, 1.0 * kilogram);
  EXPECT_EQ(1000.0 * gram, 1.0 * kilogram);
}

TEST(Quantity, StartsAtZero) { EXPECT_EQ(Mass{}.si(), 0); }

}  // namespace

}  // namespace barm

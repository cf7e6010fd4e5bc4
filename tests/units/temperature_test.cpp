#include "units/temperature.h"

#include <gtest/gtest.h>

#include <type_traits>

#include "support/printers.h"
#include "units/what_does_not_compile.h"

namespace barm {

namespace {

using test::Addable;
using test::Comparable;
using test::Subtractable;

// A point is not a difference.
static_assert(!Addable<Temperature, Temperature>);
static_assert(!Addable<Temperature, double>);
static_assert(!Subtractable<TemperatureDifference, Temperature>);
static_assert(!Comparable<Temperature, TemperatureDifference>);
static_assert(!std::is_constructible_v<Temperature, double>);
static_assert(!std::is_convertible_v<TemperatureDifference, Temperature>);
static_assert(std::is_same_v<decltype(Temperature() - Temperature()), TemperatureDifference>);
static_assert(std::is_same_v<decltype(Temperature() + kelvin), Temperature>);

TEST(Temperature, KnowsTheThreeScales) {
  const auto proof = Temperature::from_celsius(24);
  EXPECT_DOUBLE_EQ(proof.kelvin(), 297.15);
  EXPECT_NEAR(proof.fahrenheit(), 75.2, 1e-10);
  EXPECT_NEAR(Temperature::from_fahrenheit(-40).celsius(), -40, 1e-10);
}

TEST(Temperature, PointsSubtractToADifference) {
  const auto warmer = Temperature::from_celsius(28) - Temperature::from_celsius(24);
  EXPECT_DOUBLE_EQ(warmer.si(), 4);
}

TEST(Temperature, ADifferenceMovesAPoint) {
  const auto room = Temperature::from_celsius(20);
  EXPECT_NEAR((room + 5.0 * kelvin).celsius(), 25, 1e-12);
  EXPECT_NEAR((room - 5.0 * kelvin).celsius(), 15, 1e-12);
}

TEST(Temperature, Compares) {
  EXPECT_LT(Temperature::from_celsius(4), Temperature::from_kelvin(278));
}

}  // namespace

}  // namespace barm

#include <gtest/gtest.h>

#include <boost/math/distributions/binomial.hpp>

#include "estimation/own_doughs.h"

namespace barm::estimation {
namespace {

// Beyond these bounds but once in a thousand runs: 297 to 345 of 400.
TEST(Learn, CoversFourHundredOfItsOwnDoughs) {
  constexpr int doughs = 400;
  const boost::math::binomial as_said(doughs, 0.8);
  const int held = held_of_own_doughs(doughs, 1000);
  EXPECT_GE(held, quantile(as_said, 0.0005));
  EXPECT_LE(held, quantile(as_said, 0.9995));
}

}  // namespace
}  // namespace barm::estimation

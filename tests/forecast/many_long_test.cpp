#include <gtest/gtest.h>

#include "forecast/many_alone.h"

namespace barm::forecast {

namespace {

TEST(ForeseeMany, AgreesWithOneAtATimeOverTenThousandDoughs) { expect_many_as_alone(10000); }

}  // namespace

}  // namespace barm::forecast

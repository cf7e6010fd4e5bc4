#include <gtest/gtest.h>

#include "truth/oracle_scipy.h"

namespace barm {

namespace {

TEST(SciPy, WrittenAgainEveryDoughRisesAtTheSameSecond) {
  test::record_deviations(test::compare_with_scipy(test::oracle_cases()),
                          "the equations written again, SciPy Radau, tolerance 1e-10");
}

}  // namespace

}  // namespace barm

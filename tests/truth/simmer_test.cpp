// Batch distillation against tools/oracle/simmer_model.py: written again in another language, in
// time instead of mass, by an implicit method.
#include "drink/simmer.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

#include "support/command.h"
#include "support/matchers.h"
#include "support/validation.h"

namespace barm::drink {

namespace {

struct ByScipy {
  double seconds = 0, ethanol = 0, water = 0;
};

ByScipy simmered_by_scipy(double ethanol, double share) {
  const std::string root = BARM_ROOT;
  const std::string command =
      fmt::format("/usr/bin/python3 '{0}/tools/oracle/simmer_model.py' '{0}/data' {1} {2} 1000 {3}",
                  root,
                  ethanol,
                  1 - ethanol,
                  share);
  ByScipy got;
  std::istringstream(::barm::test::output_of(command)) >> got.seconds >> got.ethanol >> got.water;
  return got;
}

TEST(Simmer, AnIndependentIntegrationLeavesTheSame) {
  for (const auto& [ethanol, share] : {std::pair(0.12, 0.6), {0.4, 0.3}, {0.05, 0.8}}) {
    larder::Composition drink;
    drink[larder::Property::ethanol] = ethanol;
    drink[larder::Property::water] = 1 - ethanol;
    drink[larder::Property::ph] = 7;
    const auto ours = simmer(drink, {}, {.share = share, .strength = {}});
    ASSERT_THAT(ours, ::barm::test::Holds());
    const ByScipy theirs = simmered_by_scipy(ethanol, share);
    const double kept = ours->left[larder::Property::ethanol] * ours->mass.si();
    EXPECT_NEAR(kept / theirs.ethanol, 1, 1e-4);
    const double boiled = (ours->lasts - ours->to_the_boil).si();
    EXPECT_NEAR(boiled / theirs.seconds, 1, 1e-4);
    ::barm::test::record(
        "vapour",
        fmt::format(
            "alcohol left of {:g} % by weight simmered to {:g} %", 100 * ethanol, 100 * share),
        "SciPy Radau, in time",
        fmt::format("{:.5f}", theirs.ethanol),
        kept,
        "kg",
        std::abs(kept / theirs.ethanol - 1) < 1e-4);
  }
}

}  // namespace

}  // namespace barm::drink

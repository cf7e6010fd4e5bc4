// How much to feed, and when.
#include "forecast/feeding.h"

#include <gtest/gtest.h>

#include "larder/larder.h"

namespace barm::forecast {

namespace {

// What counts is the proportion: 2:4:2 was taken for two parts of ripe starter to each new share.
TEST(Feeding, OfTwiceTheWeightIsTheSame) {
  formula::Levain levain;
  levain.starter = *larder::find("stiff ripe levain");
  levain.flour = *larder::find("white bread flour");
  Options options;
  options.draws = 20;
  const auto once = feed_to_peak_in(levain, 300.0 * gram, 6.0 * hour, options);
  levain.ripe = 2;
  levain.fresh_flour = 4;
  levain.water = 2;
  const auto twice = feed_to_peak_in(levain, 300.0 * gram, 6.0 * hour, options);
  ASSERT_TRUE(once && twice);
  EXPECT_NEAR(once->fresh_flour, twice->fresh_flour, 1e-9);
  EXPECT_NEAR(once->peak.p50->in(hour), twice->peak.p50->in(hour), 1e-9);
}

}  // namespace

}  // namespace barm::forecast

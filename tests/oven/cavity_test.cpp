#include "oven/cavity.h"

#include <gtest/gtest.h>

#include <cmath>

#include "chemistry/vapour.h"
#include "oven/loaves.h"

namespace barm::oven {

namespace {

// A steady 0.49 g/min into 50 L/min of gas at 200 C: 0.84 L a gram, so 0.8 % of it in the end.
std::vector<Minute> steady(double grams_a_minute, double minutes) {
  std::vector<Minute> course;
  for (double m = 0; m <= minutes; ++m) {
    Minute minute;
    minute.seconds = 60 * m;
    minute.air = 200;
    minute.alcohol_rate = grams_a_minute / 1000 / 60;
    course.push_back(minute);
  }
  return course;
}

TEST(Vapour, SettlesWhereWhatComesIsWhatLeaves) {
  const Oven oven = oven_at(200);
  const Flow vent = Flow::from_si(0.05 / 60);
  const double share = vented_share(oven, steady(0.49, 60), vent);
  EXPECT_NEAR(share, 0.49 * 0.84 / (50 + 0.49 * 0.84), 1e-4);
  // The way there is an exponential with the time the cavity takes to be swept once.
  const double after_one = vented_share(oven, steady(0.49, 1), vent);
  EXPECT_NEAR(after_one / share, 1 - std::exp(-50.4 / 60), 2e-3);
}

TEST(Vapour, GrowsWithTheLoavesAndIsBoundedByAClosedOven) {
  Oven oven = oven_at(200);
  const auto course = steady(0.3, 40);
  const Mass ethanol = 12.0 * gram;
  double before = 0;
  for (const int loaves : {1, 2, 4}) {
    oven.loaves = loaves;
    const Vapour vapour = vapour_in(oven, course, ethanol, vent_of(0));
    EXPECT_GT(vapour.vented, before);
    EXPECT_LE(vapour.vented, vapour.closed);
    EXPECT_NEAR(vapour.closed,
                chemistry::vapour_share_bound(
                    loaves * ethanol, oven.cavity, Temperature::from_celsius(200)),
                1e-12);
    EXPECT_EQ(vapour.warns(), loaves > vapour.loaves_at_once);
    before = vapour.vented;
  }
  EXPECT_NEAR(vapour_in(oven, course, ethanol, vent_of(0)).warn_from, 0.031 / 4, 1e-9);
}

}  // namespace

}  // namespace barm::oven

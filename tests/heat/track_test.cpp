// A temperature in steps: what of the readings it keeps.
#include "heat/track.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/require.h"
#include "heat/celsius.h"

namespace barm::heat {

namespace {

using test::celsius;

TEST(Track, KeepsTheMeanOfTheLinesBetweenReadings) {
  const ProbeReading readings[] = {{0.0 * hour, celsius(24)},
                                   {1.0 * hour, celsius(20)},
                                   {2.75 * hour, celsius(15)},
                                   {4.0 * hour, celsius(10)},
                                   {7.0 * hour, celsius(5)}};
  const Track track = Track::through(readings);
  const double area = 22 * 1 + 17.5 * 1.75 + 12.5 * 1.25 + 7.5 * 3;
  EXPECT_NEAR(track.mean_celsius(7), area / 7, 1e-9);
  EXPECT_NEAR(track.mean_celsius(17), (area + 5 * 10) / 17, 1e-9);  // flat after the last
}

TEST(Track, StepsSpanNoMoreThanAsked) {
  std::vector<ProbeReading> readings;
  for (int i = 0; i <= 200; ++i) {
    readings.push_back({i * 0.1 * hour, celsius(20 + 8 * std::sin(i * 0.07))});
  }
  const Track track = Track::through(readings, 0.5);
  const auto segments = track.segments();
  ASSERT_GT(segments.size(), 20U);
  ASSERT_LT(segments.size(), 150U);  // 71 K up and down in all
  for (const ProbeReading& reading : readings) {
    EXPECT_NEAR(track.celsius_at(reading.at.in(hour)), reading.temperature.celsius(), 0.5 + 1e-9);
  }
}

TEST(Track, ALoggersNoiseCostsNoSteps) {
  std::vector<ProbeReading> readings;
  for (int i = 0; i < 5000; ++i) {
    readings.push_back({i * 0.01 * hour, celsius(24 + (i % 2 == 0 ? 0.1 : -0.1))});
  }
  EXPECT_LE(Track::through(readings).segments().size(), 2U);
}

TEST(Track, TwoReadingsAtOneTimeAreAJump) {
  const ProbeReading readings[] = {{0.0 * hour, celsius(24)},
                                   {2.0 * hour, celsius(24)},
                                   {2.0 * hour, celsius(4)},
                                   {5.0 * hour, celsius(4)}};
  const Track track = Track::through(readings);
  EXPECT_EQ(track.celsius_at(1.999), 24);
  EXPECT_EQ(track.celsius_at(2.001), 4);
  EXPECT_NEAR(track.mean_celsius(5), (2 * 24 + 3 * 4) / 5.0, 1e-9);
}

TEST(Track, OneReadingHoldsThroughout) {
  const ProbeReading readings[] = {{3.0 * hour, celsius(21)}};
  const Track track = Track::through(readings);
  EXPECT_EQ(track.celsius_at(0), 21);
  EXPECT_EQ(track.celsius_at(50), 21);
}

TEST(Track, IsCutAndJoined) {
  const Track cooling = Track::of({{0, 24}, {1, 20}, {2, 16}});
  const Track rest = cooling.after(1.5);
  EXPECT_EQ(rest.celsius_at(0), 20);
  EXPECT_EQ(rest.celsius_at(0.6), 16);
  const Track joined = cooling.then(1.5, Track(celsius(30)));
  EXPECT_EQ(joined.celsius_at(1.4), 20);
  EXPECT_EQ(joined.celsius_at(1.6), 30);
  EXPECT_NEAR(joined.mean_celsius(2), (24 + 0.5 * 20 + 0.5 * 30) / 2, 1e-12);
}

TEST(Track, TimeDoesNotRunBackwards) {
  EXPECT_THROW((void)Track::of({{0, 24}, {2, 20}, {1, 16}}), ContractViolation);
}

}  // namespace

}  // namespace barm::heat

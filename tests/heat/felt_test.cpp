#include "heat/felt.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace barm::heat {

namespace {

ProbeReading felt_reading(double hours, double celsius) {
  return {hours * hour, Temperature::from_celsius(celsius)};
}

// 480 rows over so many hours: a course of the day, and leaps from row to row.
std::vector<ProbeReading> a_logger(double hours, double swing, double leap) {
  std::mt19937 engine(7);
  std::uniform_real_distribution<double> from_row_to_row(-1, 1);
  std::vector<ProbeReading> rows;
  for (int i = 0; i < 480; ++i) {
    const double t = hours * i / 480;
    rows.push_back(felt_reading(
        t, 24 + swing * std::sin(2 * std::numbers::pi * t / 24) + leap * from_row_to_row(engine)));
  }
  return rows;
}

TEST(FeltTrack, KeepsADoughWithinTheBoundInFewSteps) {
  struct Case {
    double hours, swing, leap;
    double off;  // K
  };

  for (const Case& one :
       {Case{8, 1.5, 0.1, 0.25}, Case{8, 1.5, 4, 0.6}, Case{24, 3, 0.2, 0.7}, Case{72, 4, 8, 5}}) {
    const auto rows = a_logger(one.hours, one.swing, one.leap);
    const Felt felt = felt_track(rows);
    EXPECT_LE(felt.track.segments().size(), most_steps);
    EXPECT_LE(felt.most_off, one.off) << one.hours << " h, leaps of " << one.leap;
    EXPECT_NEAR(most_off(rows, felt.track), felt.most_off, 1e-9)
        << "what is said is what the steps do";
  }
}

TEST(FeltTrack, HasTheMeanOfWhatItReplaces) {
  const auto rows = a_logger(24, 3, 2);
  const Track fine = Track::through(rows);
  EXPECT_NEAR(felt_track(rows).track.mean_celsius(24), fine.mean_celsius(24), 0.02);
}

TEST(FeltTrack, OfOneTemperatureIsOneStep) {
  EXPECT_EQ(felt_track(std::vector{felt_reading(3, 21)}).track.segments().size(), 1U);
  const std::vector<ProbeReading> steady{
      felt_reading(0, 21), felt_reading(5, 21), felt_reading(9, 21)};
  const Felt felt = felt_track(steady);
  EXPECT_EQ(felt.track.segments().size(), 1U);
  EXPECT_NEAR(felt.track.celsius_at(4), 21, 1e-9);
  EXPECT_LT(felt.most_off, 1e-9);
}

TEST(FeltTrack, FollowsAMoveIntoTheCold) {
  const std::vector<ProbeReading> moved{
      felt_reading(0, 25), felt_reading(4, 25), felt_reading(4, 5)};
  std::vector<ProbeReading> rows = moved;
  rows.push_back(felt_reading(20, 5));
  const Felt felt = felt_track(rows);
  EXPECT_LE(felt.most_off, well_felt);
  EXPECT_NEAR(felt.track.celsius_at(3.9), 25, 0.5);
  EXPECT_NEAR(felt.track.celsius_at(4.1), 5, 0.5);
  EXPECT_NEAR(felt.track.celsius_at(100), 5, 1e-9);
}

TEST(FeltTrack, DoesNotFeelWhatComesAndGoesWithinMinutes) {
  const std::vector<ProbeReading> opened{felt_reading(0, 24),
                                         felt_reading(2, 24),
                                         felt_reading(2.02, 20),
                                         felt_reading(2.04, 24),
                                         felt_reading(6, 24)};
  const Felt felt = felt_track(opened);
  EXPECT_LE(felt.track.segments().size(), 2U) << "one, and what stays after the last reading";
  EXPECT_NEAR(felt.track.celsius_at(2.02), 24, 0.05);
}

}  // namespace

}  // namespace barm::heat

#include "service/words.h"

#include <gtest/gtest.h>

namespace barm::service {

namespace {

TEST(Clock, CountsFromALocalDateAndTime) {
  const Clock clock("2026-11-28T07:00");  // a Saturday
  EXPECT_EQ(clock.moment(8.5 * hour), "Sat 15:30");
  EXPECT_EQ(clock.short_moment(8.5 * hour), "15:30");
  EXPECT_EQ(clock.short_moment(20.0 * hour), "Sun 03:00");
  EXPECT_EQ(clock.moment(-8.0 * hour), "Fri 23:00");
  EXPECT_EQ(clock.iso(8.6 * hour), "2026-11-28T15:36");
  EXPECT_EQ(clock.iso(96.0 * hour), "2026-12-02T07:00");
}

TEST(Clock, CountsFromATimeOfDayOrFromMixing) {
  EXPECT_EQ(Clock("22:00").moment(8.0 * hour), "06:00 next day");
  EXPECT_EQ(Clock().moment(8.5 * hour), "8 h 30 after mixing");
  EXPECT_FALSE(Clock("2026-13-28T07:00").known());
  EXPECT_FALSE(Clock("soon").known());
  EXPECT_FALSE(Clock("25:00").known());
}

TEST(Span, IsSaidToTheQuarterHour) {
  EXPECT_EQ(span(5.0 * hour + 14.0 * minute), "5 h 15");
  EXPECT_EQ(span(5.0 * hour), "5 h");
  EXPECT_EQ(span(40.0 * minute), "45 min");
  EXPECT_EQ(span(5.0 * minute), "under 15 min");
  EXPECT_EQ(span(60.3 * hour), "60 h");
}

TEST(Weight, IsSaidAsAScaleShowsIt) {
  EXPECT_EQ(weight(3060.2 * gram), "3060 g");
  EXPECT_EQ(weight(61.4 * gram), "61 g");
  EXPECT_EQ(weight(4.52 * gram), "4.5 g");
  EXPECT_EQ(weight(0.25 * gram), "0.25 g");
  EXPECT_EQ(weight(12400.0 * gram), "12.4 kg");
}

TEST(Odds, AreSaidInSmallNumbers) {
  EXPECT_EQ(odds(Probability(0.02), 400), "1 in 50");
  EXPECT_EQ(odds(Probability(0.25), 400), "1 in 4");
  EXPECT_EQ(odds(Probability(0.8), 400), "4 in 5");
  EXPECT_EQ(odds(Probability(0.98), 400), "49 in 50");
  EXPECT_EQ(odds(Probability(0), 400), "under 1 in 400");
  EXPECT_EQ(odds(Probability(1), 400), "over 399 in 400");
  EXPECT_EQ(odds(Probability(1.0 / 400), 400), "1 in 400");
  EXPECT_EQ(odds(Probability(1e-5), 400), "under 1 in 400");
  EXPECT_EQ(odds(Probability(1 - 1e-5), 400), "over 399 in 400");
}

TEST(Warmth, IsSaidToHalfADegree) {
  EXPECT_EQ(warmth(Temperature::from_celsius(24.1)), "24 °C");
  EXPECT_EQ(warmth(Temperature::from_celsius(24.4)), "24.5 °C");
}

}  // namespace

}  // namespace barm::service

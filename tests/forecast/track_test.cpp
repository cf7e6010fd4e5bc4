// A dough whose temperature changes: in steps, in lanes, and against a run cut by hand.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "forecast/course.h"
#include "forecast/many.h"
#include "kinetics/system.h"
#include "support/random_doughs.h"

namespace barm::forecast {

namespace {

Proving exactly() {
  Proving proving;
  proving.accuracy = {.relative = 1e-9, .absolute = 1e-12, .most_steps = 1000000};
  return proving;
}

TEST(DoughOnATrack, SameTemperatureInStepsIsTheSameDough) {
  Proving constant = exactly();
  Proving stepped = exactly();
  stepped.track = heat::Track::of({{0, 24}, {1.3, 24}, {5, 24}, {11, 24}});
  const auto one = run(test::wine_dough(), kinetics::book(), constant);
  const auto other = run(test::wine_dough(), kinetics::book(), stepped);
  ASSERT_TRUE(one && other && one->ready && one->peak);
  EXPECT_NEAR(one->ready->in(minute), other->ready->in(minute), 1e-4);
  EXPECT_NEAR(one->peak->in(minute), other->peak->in(minute), 0.05);
  EXPECT_NEAR(one->largest_rise, other->largest_rise, 1e-7);
}

// The same equations with the temperature changing all the time, by the classic method of Runge and
// Kutta in steps of half a minute: a dough that cools from 27 to 19 C.
double rise_when_cooling(double hours) {
  const auto dough = test::plain_dough();
  const auto book = kinetics::book();
  const auto celsius = [](double t) { return 19 + 8 * std::exp(-t / 2); };
  using State = kinetics::StateOf<double>;
  const auto slope = [&](double t, const State& y) {
    const auto terms = kinetics::terms(dough, book, celsius(t), celsius(0));
    State dy;
    kinetics::System<double>(terms, kinetics::present(dough))(t, y, dy);
    return dy;
  };
  const auto moved = [](const State& y, const State& dy, double h) {
    State out;
    for (std::size_t i = 0; i < y.size(); ++i) out[i] = y[i] + h * dy[i];
    return out;
  };
  State y = kinetics::at_mixing(dough, book);
  constexpr double h = 1.0 / 120;
  for (int i = 0; i < static_cast<int>(std::lround(hours / h)); ++i) {
    const double t = i * h;
    const State k1 = slope(t, y);
    const State k2 = slope(t + h / 2, moved(y, k1, h / 2));
    const State k3 = slope(t + h / 2, moved(y, k2, h / 2));
    const State k4 = slope(t + h, moved(y, k3, h));
    for (std::size_t j = 0; j < y.size(); ++j)
      y[j] += h / 6 * (k1[j] + 2 * k2[j] + 2 * k3[j] + k4[j]);
  }
  const auto terms = kinetics::terms(dough, book, celsius(hours), celsius(0));
  return kinetics::System<double>(terms, kinetics::present(dough)).rise(y);
}

TEST(DoughOnATrack, StepsOfHalfADegreeAreAsGoodAsASmoothFall) {
  std::vector<heat::ProbeReading> readings;
  for (int i = 0; i <= 300; ++i) {
    const double t = i * 0.05;
    readings.push_back({t * hour, Temperature::from_celsius(19 + 8 * std::exp(-t / 2))});
  }
  Proving proving;
  proving.track = heat::Track::through(readings);
  proving.horizon = 10.0 * hour;
  proving.sample_every = 1.0 * hour;
  const auto course = run(test::plain_dough(), kinetics::book(), proving);
  ASSERT_TRUE(course);
  ASSERT_EQ(course->curve.size(), 11U);
  for (const int at : {3, 6, 10}) {
    EXPECT_NEAR(course->curve[static_cast<std::size_t>(at)].rise, rise_when_cooling(at), 0.006)
        << at << " h";
  }
}

TEST(DoughOnATrack, ChillingShrinksAndWarmingSwells) {
  Proving proving = exactly();
  proving.target = 8;
  proving.sample_every = 0.5 * hour;
  proving.horizon = 12.0 * hour;
  proving.track = heat::Track::of({{0, 24}, {8.2, 4}, {10.2, 24}});
  const auto course = run(test::plain_dough(), kinetics::book(), proving);
  ASSERT_TRUE(course);
  EXPECT_LT(course->curve[17].rise, 0.95 * course->curve[16].rise);
  EXPECT_NEAR(course->curve[20].rise, course->curve[17].rise, 0.03);
  EXPECT_GT(course->curve[21].rise, 1.05 * course->curve[20].rise);
  EXPECT_FALSE(course->peak);  // it rises on to the end: the top before the chill was none
}

TEST(DoughOnATrack, TheTopBeforeAChillIsItsPeak) {
  Proving proving = exactly();
  proving.horizon = 20.0 * hour;
  proving.track = heat::Track::of({{0, 24}, {8.2, 4}});
  const auto course = run(test::plain_dough(), kinetics::book(), proving);
  ASSERT_TRUE(course && course->peak);
  EXPECT_NEAR(course->peak->in(hour), 8.2, 1e-9);
}

Case case_on_a_track(std::size_t i) {
  const test::RandomDough random = test::random_dough(i);
  numerics::Random luck(77, i);
  Case one{random.dough, random.parameters, Temperature::from_celsius(random.celsius)};
  if (i % 5 == 0) return one;  // some of them at one temperature, among the others
  std::vector<heat::Segment> segments;
  double celsius = random.celsius;
  double from = 0;
  const int count = 1 + static_cast<int>(luck.uniform() * 30);
  for (int k = 0; k < count; ++k) {
    segments.push_back({from, celsius});
    from += 0.02 + 2 * luck.uniform();
    celsius = std::clamp(celsius + 3 * luck.normal(), 2.0, 40.0);
  }
  one.track = heat::Track::of(segments);
  return one;
}

TEST(DoughOnATrack, LanesAgreeWithOneAtATime) {
  ManyOptions options;
  options.proving.horizon = 48.0 * hour;
  options.proving.handlings = {{2.0 * hour, 0.1}, {4.0 * hour, 0.3}};
  options.proving.sample_every = 2.0 * hour;
  std::vector<Case> cases;
  for (std::size_t i = 0; i < 1500; ++i) cases.push_back(case_on_a_track(i));
  for (const Precision precision : {Precision::full, Precision::single}) {
    options.precision = precision;
    const auto many = foresee_many(cases, options);
    ASSERT_TRUE(many);
    int ready = 0;
    int peaks = 0;
    int peaks_differ = 0;
    for (std::size_t i = 0; i < cases.size(); ++i) {
      Proving proving = options.proving;
      proving.temperature = cases[i].temperature;
      proving.track = cases[i].track;
      proving.accuracy = {.relative = 1e-8, .absolute = 1e-11, .most_steps = 1000000};
      const auto alone = run(cases[i].dough, cases[i].parameters, proving);
      ASSERT_TRUE(alone);
      const Passed& passed = many->passed[i];
      ASSERT_EQ(passed.is_ready(), alone->ready.has_value()) << i;
      ASSERT_EQ(passed.fifth < Passed::never, alone->fifth.has_value()) << i;
      if (alone->ready) {
        ++ready;
        EXPECT_NEAR(passed.ready * 60, alone->ready->in(minute), 0.5) << i;
      }
      if (alone->fifth) {
        EXPECT_NEAR(passed.fifth * 60, alone->fifth->in(minute), 0.5) << i;
      }
      EXPECT_NEAR(passed.largest_rise, alone->largest_rise, 0.002) << i;
      peaks += alone->peak ? 1 : 0;
      peaks_differ += alone->peak.has_value() != (passed.peak < Passed::never) ? 1 : 0;
      for (const std::size_t s : {std::size_t{3}, std::size_t{9}, std::size_t{20}}) {
        EXPECT_NEAR(
            static_cast<double>(many->rise[i * many->samples + s]), alone->curve[s].rise, 0.002)
            << i << " at sample " << s;
      }
    }
    EXPECT_GT(ready, 300);
    EXPECT_GT(peaks, 300);
    EXPECT_LE(peaks_differ, 3);  // a top that the end of the run lies on, within rounding
  }
}

TEST(DoughOnATrack, NoNeighbourLeavesATrace) {
  std::vector<Case> cases;
  for (std::size_t i = 0; i < 100; ++i) cases.push_back(case_on_a_track(i));
  const auto together = foresee_many(cases);
  ASSERT_TRUE(together);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const auto alone = foresee_many(std::span(cases).subspan(i, 1));
    ASSERT_TRUE(alone);
    EXPECT_EQ(together->passed[i].ready, alone->passed[0].ready) << i;
    EXPECT_EQ(together->passed[i].peak, alone->passed[0].peak) << i;
    EXPECT_EQ(together->passed[i].largest_rise, alone->passed[0].largest_rise) << i;
  }
}

}  // namespace

}  // namespace barm::forecast

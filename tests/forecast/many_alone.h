#pragma once
// Many doughs in lanes and threads, and the same one at a time.
#include <gtest/gtest.h>

#include <cmath>
#include <thread>
#include <vector>

#include "forecast/course.h"
#include "forecast/many.h"
#include "support/random_doughs.h"

namespace barm::forecast {

inline Case random_case(std::size_t i) {
  const test::RandomDough random = test::random_dough(i);
  return {random.dough, random.parameters, Temperature::from_celsius(random.celsius)};
}

inline std::vector<Case> random_cases(std::size_t count) {
  std::vector<Case> cases;
  cases.reserve(count);
  for (std::size_t i = 0; i < count; ++i) cases.push_back(random_case(i));
  return cases;
}

inline Proving one_by_one(const Case& one, const ManyOptions& options, double relative) {
  Proving proving = options.proving;
  proving.temperature = one.temperature;
  proving.accuracy = {.relative = relative, .absolute = relative * 1e-3, .most_steps = 1000000};
  return proving;
}

inline double minutes_between(double hours, Time time) {
  return 60 * std::abs(hours - time.in(hour));
}

// The stated errors (docs/model/lanes.md): times of a rise to half a minute, times of a fall to two
// minutes, the largest rise to 0.002. A peak is as flat as it likes, so what is held of it is its
// height; and so is the rise of a dough that only just gets there.
constexpr double error_of_height = 0.002;

inline void expect_alike(const Passed& ours, const Course& alone, double target, std::size_t i) {
  const auto happened_alike = [](double hours, const std::optional<Time>& time) {
    return (hours < Passed::never) == time.has_value();
  };
  ASSERT_TRUE(happened_alike(ours.fifth, alone.fifth))
      << "case " << i << " largest " << alone.largest_rise;
  ASSERT_TRUE(happened_alike(ours.ready, alone.ready))
      << "case " << i << " largest " << alone.largest_rise;
  const auto clearly_passed = [&](double rise) {
    return alone.largest_rise > rise + error_of_height;
  };
  if (alone.fifth && clearly_passed(1.2)) {
    EXPECT_LT(minutes_between(ours.fifth, *alone.fifth), 0.5) << "case " << i;
  }
  if (alone.ready && clearly_passed(target)) {
    EXPECT_LT(minutes_between(ours.ready, *alone.ready), 0.5) << "case " << i;
  }
  EXPECT_NEAR(ours.largest_rise, alone.largest_rise, error_of_height) << "case " << i;
  if (alone.sour && ours.sour < Passed::never) {
    EXPECT_LT(minutes_between(ours.sour, *alone.sour), 3) << "case " << i;
  }
  if (alone.collapsed && ours.collapsed < Passed::never) {
    EXPECT_LT(minutes_between(ours.collapsed, *alone.collapsed), 2) << "case " << i;
  }
}

/// Random doughs run both ways: some double and some do not, some collapse, and all agree.
inline void expect_many_as_alone(std::size_t count) {
  const auto cases = random_cases(count);
  std::vector<Course> alone(count);
  ManyOptions options;
  options.proving.horizon = 48.0 * hour;
  {
    std::vector<std::jthread> threads;
    threads.reserve(2);
    for (std::size_t t = 0; t < 2; ++t) {
      threads.emplace_back([&, t] {
        for (std::size_t i = t; i < count; i += 2) {
          alone[i] = *run(cases[i].dough, cases[i].parameters, one_by_one(cases[i], options, 1e-8));
        }
      });
    }
  }
  std::size_t ready = 0;
  std::size_t collapsed = 0;
  for (const Course& course : alone) {
    ready += course.ready ? 1 : 0;
    collapsed += course.collapsed ? 1 : 0;
  }
  ASSERT_GT(ready, count / 10);
  ASSERT_LT(ready, count - count / 10);
  ASSERT_GT(collapsed, count / 10);
  for (const Precision precision : {Precision::full, Precision::single}) {
    options.precision = precision;
    const auto many = foresee_many(cases, options);
    ASSERT_TRUE(many);
    std::size_t differ = 0;
    for (std::size_t i = 0; i < count; ++i) {
      expect_alike(many->passed[i], alone[i], options.proving.target, i);
      differ +=
          (many->passed[i].collapsed < Passed::never) != alone[i].collapsed.has_value() ? 1 : 0;
    }
    EXPECT_LE(differ,
              count / 1000);  // at the horizon, or where one of the two sees a ripple as the peak
  }
}

}  // namespace barm::forecast

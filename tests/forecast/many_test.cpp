// Many doughs in lanes and threads against one dough at a time.
#include "forecast/many.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <cstring>
#include <stdexcept>
#include <thread>

#include "forecast/many_alone.h"

namespace barm::forecast {

namespace {

using numerics::Instructions;

bool same_to_the_bit(const std::vector<Passed>& a, const std::vector<Passed>& b) {
  return a.size() == b.size() && std::memcmp(a.data(), b.data(), a.size() * sizeof(Passed)) == 0;
}

// Fails when a lane takes its neighbour's temperature, or a time of a rise is a minute off. Ten
// thousand: many_long_test.cpp.
TEST(ForeseeMany, AgreesWithOneAtATimeOverTwoThousandDoughs) { expect_many_as_alone(2000); }

TEST(ForeseeMany, IsTheSameForAnyNumberOfThreads) {
  const auto cases = random_cases(1000);
  for (const Precision precision : {Precision::full, Precision::single}) {
    ManyOptions options;
    options.precision = precision;
    options.threads = 1;
    const auto one = foresee_many(cases, options);
    ASSERT_TRUE(one);
    for (const int threads : {2, 7}) {
      options.threads = threads;
      const auto several = foresee_many(cases, options);
      ASSERT_TRUE(several);
      EXPECT_TRUE(same_to_the_bit(one->passed, several->passed)) << threads << " threads";
    }
  }
}

TEST(ForeseeMany, NoLaneAffectsAnother) {
  // Each dough alone, and among doughs of every other kind: what they bring must leave no trace in
  // it.
  const auto cases = random_cases(200);
  for (const auto instructions : {numerics::best_instructions(), Instructions::plain}) {
    for (const Precision precision : {Precision::full, Precision::single}) {
      ManyOptions options;
      options.threads = 1;
      options.precision = precision;
      options.instructions = instructions;
      const auto together = foresee_many(cases, options);
      ASSERT_TRUE(together);
      for (std::size_t i = 0; i < cases.size(); ++i) {
        const auto alone = foresee_many(std::span(cases).subspan(i, 1), options);
        ASSERT_TRUE(alone);
        EXPECT_TRUE(same_to_the_bit({together->passed[i]}, alone->passed)) << "case " << i;
      }
    }
  }
}

TEST(ForeseeMany, PlainAndFastInstructionsAgree) {
  const auto cases = random_cases(1000);
  ManyOptions options;
  const auto fast = foresee_many(cases, options);
  options.instructions = Instructions::plain;
  const auto plain = foresee_many(cases, options);
  ASSERT_TRUE(fast && plain);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    EXPECT_EQ(fast->passed[i].is_ready(), plain->passed[i].is_ready()) << i;
    if (fast->passed[i].is_ready()) {
      EXPECT_NEAR(fast->passed[i].ready, plain->passed[i].ready, 1e-3) << i;
    }
  }
}

TEST(ForeseeMany, StopsWhereTheTargetIsReached) {
  const auto cases = random_cases(500);
  ManyOptions options;
  const auto whole = foresee_many(cases, options);
  options.proving.stop_at_target = true;
  const auto stopped = foresee_many(cases, options);
  ASSERT_TRUE(whole && stopped);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    EXPECT_EQ(stopped->passed[i].ready, whole->passed[i].ready) << i;
    EXPECT_EQ(stopped->passed[i].fifth, whole->passed[i].fifth) << i;
    EXPECT_EQ(whole->passed[i].end, 72) << i;
    if (!whole->passed[i].is_ready()) continue;
    EXPECT_EQ(stopped->passed[i].end, stopped->passed[i].ready) << i;
    const double sour = whole->passed[i].sour;
    EXPECT_EQ(stopped->passed[i].sour, sour <= stopped->passed[i].end ? sour : Passed::never) << i;
    EXPECT_NEAR(stopped->passed[i].largest_rise, 2, 1e-3) << i;
  }
}

TEST(ForeseeMany, FoldsLetGasOutAsOneAtATime) {
  ManyOptions options;
  options.proving.handlings = {
      {2.0 * hour, 0.1}, {4.0 * hour, 0.3}, {4.0 * hour, 0.9}, {90.0 * hour, 0.5}};
  const auto cases = random_cases(500);
  const auto many = foresee_many(cases, options);
  ASSERT_TRUE(many);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const auto alone =
        run(cases[i].dough, cases[i].parameters, one_by_one(cases[i], options, 1e-8));
    ASSERT_TRUE(alone);
    expect_alike(many->passed[i], *alone, options.proving.target, i);
  }
}

TEST(ForeseeMany, CurvesAreThoseOfOneAtATime) {
  ManyOptions options;
  options.proving.sample_every = 0.5 * hour;
  options.proving.horizon = 30.0 * hour;
  options.proving.handlings = {{3.25 * hour, 0.2}};
  options.ph_too = true;
  const auto cases = random_cases(300);
  const auto many = foresee_many(cases, options);
  ASSERT_TRUE(many);
  ASSERT_EQ(many->samples, 61U);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const auto alone =
        run(cases[i].dough, cases[i].parameters, one_by_one(cases[i], options, 1e-8));
    ASSERT_TRUE(alone);
    for (std::size_t s = 0; s < alone->curve.size(); ++s) {
      EXPECT_NEAR(many->rise[i * 61 + s], alone->curve[s].rise, 2e-3)
          << "case " << i << " sample " << s;
      EXPECT_NEAR(many->ph[i * 61 + s], alone->curve[s].ph, 2e-3)
          << "case " << i << " sample " << s;
    }
  }
}

TEST(ForeseeMany, AStoppedRunHasNoCurveBeyondItsEnd) {
  ManyOptions options;
  options.proving.sample_every = 1.0 * hour;
  options.proving.stop_at_target = true;
  const Case one{test::plain_dough(), kinetics::book(), Temperature::from_celsius(24)};
  const auto many = foresee_many(std::span(&one, 1), options);
  ASSERT_TRUE(many);
  const auto end = static_cast<std::size_t>(many->passed[0].end);
  EXPECT_FALSE(std::isnan(many->rise[end - 1]));
  EXPECT_TRUE(std::isnan(many->rise[end + 3]));
}

TEST(ForeseeMany, ALostLaneIsRunAlone) {
  // Short numbers cannot keep so small an error however short the step; run() can.
  const Case one{test::plain_dough(), kinetics::book(), Temperature::from_celsius(24)};
  ManyOptions options;
  options.precision = Precision::single;
  options.proving.sample_every = 1.0 * hour;
  options.proving.accuracy.relative = 1e-11;
  options.proving.accuracy.absolute = 1e-14;
  const auto alone = run(one.dough, one.parameters, options.proving);
  ASSERT_TRUE(alone);
  const auto many = foresee_many(std::span(&one, 1), options);
  ASSERT_TRUE(many);
  EXPECT_EQ(many->passed[0].ready, alone->ready.value_or(0.0 * hour).in(hour));
  EXPECT_EQ(many->passed[0].largest_rise, alone->largest_rise);
  EXPECT_EQ(many->rise[20], static_cast<float>(alone->curve[20].rise));
}

TEST(ForeseeMany, SaysWhenADoughDoesNotSettle) {
  ManyOptions options;
  options.proving.accuracy.most_steps = 5;
  const auto many = foresee_many(random_cases(10), options);
  ASSERT_FALSE(many);
  EXPECT_EQ(many.error().code, ErrorCode::no_convergence);
}

TEST(ForeseeMany, CancellingLeavesNothingRunning) {
  std::atomic<int> asked{0};
  std::atomic<int> running{0};
  ManyOptions options;
  options.threads = 7;
  options.cancelled = [&] { return ++asked > 10; };
  const auto fill = [&](std::size_t i, Case& to_fill) {
    ++running;
    to_fill = random_case(i);
    --running;
  };
  const auto many = foresee_many(1000000, fill, options);
  ASSERT_FALSE(many);
  EXPECT_EQ(many.error().code, ErrorCode::cancelled);
  EXPECT_EQ(running, 0);
  const int asked_at_return = asked;
  std::this_thread::sleep_for(std::chrono::milliseconds(20));
  EXPECT_EQ(asked, asked_at_return);
  EXPECT_LE(asked_at_return, 10 + 7);  // no thread asked again after it was told to stop
}

TEST(ForeseeMany, ProgressAscendsToTheWhole) {
  ManyOptions options;
  options.threads = 3;
  options.proving.stop_at_target = true;
  std::vector<double> told;
  options.progress = [&](double share) { told.push_back(share); };
  const auto cases = random_cases(1000);
  ASSERT_TRUE(foresee_many(cases, options));
  ASSERT_GT(told.size(), 3U);
  EXPECT_TRUE(std::is_sorted(told.begin(), told.end()));
  EXPECT_EQ(told.back(), 1.0);
}

TEST(ForeseeMany, WhatFillThrowsReachesTheCaller) {
  ManyOptions options;
  options.threads = 3;
  const auto fill = [](std::size_t i, Case& to_fill) {
    if (i == 700) throw std::runtime_error("no such dough");
    to_fill = random_case(i);
  };
  EXPECT_THROW(static_cast<void>(foresee_many(1000, fill, options)), std::runtime_error);
}

TEST(ForeseeMany, OfNothingIsNothing) {
  const auto many = foresee_many(std::span<const Case>{});
  ASSERT_TRUE(many);
  EXPECT_TRUE(many->passed.empty());
}

}  // namespace

}  // namespace barm::forecast

// The lag by the age of the levain: a slope beside the culture's own numbers.
#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

#include "estimation/culture.h"
#include "numerics/random.h"
#include "support/doughs.h"
#include "support/matchers.h"

namespace barm::estimation {
namespace {

using kinetics::Parameter;
using test::Holds;

constexpr double four_of_five = 1.2816;

std::size_t lag_place() {
  return static_cast<std::size_t>(
      std::find(culture_parameters.begin(), culture_parameters.end(), Parameter::lag_scale) -
      culture_parameters.begin());
}

// A batch whose readings say nothing but its ln(lag), with that doubt.
BatchLesson heard(int number, double age_h, double ln_lag, double doubt) {
  BatchLesson lesson;
  lesson.batch = "batch " + std::to_string(number);
  lesson.day = 20000 + 7 * number;
  lesson.levain_age_h = age_h;
  const double sharp = 1 / (doubt * doubt);
  lesson.push[lag_place()] = sharp * ln_lag;
  lesson.sharpness[lag_place() * culture_size + lag_place()] = sharp;
  return lesson;
}

Culture with_ages(const std::vector<double>& ages, double ln_lag) {
  Culture culture{"marsh", {}};
  for (std::size_t i = 0; i < ages.size(); ++i)
    put(culture, heard(static_cast<int>(i), ages[i], ln_lag, 0.3));
  return culture;
}

// Four hundred cultures that differ as they are supposed to, four batches each (fewer than would
// teach how batches scatter): 4 of 5 ranges hold the slope in 4 of 5 cultures.
TEST(LevainAge, TheSlopeIsWithinItsRangeAsOftenAsItIsSaidToBe) {
  const CultureBelief day_one = belief_of({"none", {}});
  const std::size_t lag = lag_place();
  const double own =
      std::sqrt(std::pow(day_one.before[lag], 2) - std::pow(day_one.between[lag], 2));
  constexpr int cultures = 400;
  int within = 0;
  for (int c = 0; c < cultures; ++c) {
    numerics::Random random(5, static_cast<std::uint64_t>(c));
    const double slope = day_one.slope_before * random.normal();
    const double mean = day_one.mean[lag] + own * random.normal();
    Culture culture{"one of many", {}};
    const double ages[] = {-2, 1, 5, 12};
    for (int i = 0; i < 4; ++i) {
      const double truth = mean + slope * (ages[i] - 4) + day_one.between[lag] * random.normal();
      put(culture, heard(i, ages[i], truth + 0.2 * random.normal(), 0.2));
    }
    const CultureBelief told = belief_of(culture);
    if (std::abs(told.slope - slope) < four_of_five * told.slope_sd) ++within;
  }
  // 99 of 100 times between these by the binomial law.
  EXPECT_GE(within, 299);
  EXPECT_LE(within, 341);
}

// Eight doughs of a culture whose lag grows or shrinks with its levain's age, read by their
// heights.
CultureBelief read_with_slope(double slope) {
  forecast::Proving proving;
  proving.horizon = 72.0 * hour;
  kinetics::Dough dough = test::plain_dough();
  dough.lag = 0.7;
  const DoughToRead book = prepare(dough, day_one_belief(), proving);
  Culture culture{"marsh", {}};
  for (int i = 0; i < 8; ++i) {
    const double age = 3 * i - 3;
    DoughToRead truth = book;
    truth.ln_mean[static_cast<std::size_t>(Parameter::lag_scale)] += slope * (age - 7.5);
    numerics::Random random(static_cast<std::uint64_t>(i), 77);
    const double hours[] = {1, 2, 3, 4, 5, 6, 7, 8, 10};
    const std::vector<double> z(truth.dimension(), 0.0);
    const auto readings =
        simulated(truth, z, hours, 60.0 * millimetre, [&] { return random.normal(); });
    DoughToRead batch = book;
    batch.levain_age = age * hour;
    const auto learned = learn(batch, *readings, {.draws = 500});
    put(culture, lesson_of(batch, *learned, "batch " + std::to_string(i), 20000 + i));
  }
  return belief_of(culture);
}

TEST(LevainAge, ASlopeIsFoundFromDoughsThatWereRead) {
  const CultureBelief more = read_with_slope(0.06);
  const CultureBelief less = read_with_slope(-0.06);
  EXPECT_NEAR(more.slope, 0.06, 2 * more.slope_sd);
  EXPECT_NEAR(less.slope, -0.06, 2 * less.slope_sd);
  EXPECT_GT(more.slope - less.slope, more.slope_sd);
  EXPECT_LT(more.slope_sd, 0.9 * more.slope_before);
}

// While all levains are alike, or nobody says how old they were, it is as if age did not count.
TEST(LevainAge, SaysNothingWhileAllAreAsOld) {
  const Culture alike = with_ages({5, 5, 5, 5}, 0.3);
  Culture not_said = alike;
  for (BatchLesson& lesson : not_said.batches) lesson.levain_age_h.reset();
  const CultureBelief a = belief_of(alike, 0, 5.0 * hour);
  const CultureBelief b = belief_of(not_said);
  for (std::size_t i = 0; i < culture_size; ++i) {
    EXPECT_NEAR(a.mean[i], b.mean[i], 1e-12);
    EXPECT_NEAR(a.sd[i], b.sd[i], 1e-12);
  }
  for (std::size_t i = 0; i < a.next.covariance.size(); ++i)
    EXPECT_NEAR(a.next.covariance[i], b.next.covariance[i], 1e-12);
  EXPECT_EQ(a.slope, 0);
  EXPECT_NEAR(a.slope_sd, a.slope_before, 1e-12);
  EXPECT_THAT(later_by_age(alike).words, testing::HasSubstr("do not differ enough in age"));
}

TEST(LevainAge, ABatchIsBegunByTheAgeOfItsLevain) {
  Culture culture{"marsh", {}};
  for (int i = 0; i < 8; ++i) put(culture, heard(i, 1.5 * i, 0.1 * (1.5 * i - 5), 0.2));
  const auto lag = static_cast<std::size_t>(Parameter::lag_scale);
  const Belief fresh = next_batch(culture, 0, 0.0 * hour);
  const Belief old = next_batch(culture, 0, 10.0 * hour);
  const Belief usual = next_batch(culture);
  EXPECT_LT(fresh.mean[lag], usual.mean[lag]);
  EXPECT_GT(old.mean[lag], usual.mean[lag]);
  // Further from what was seen, less is known.
  EXPECT_GT(next_batch(culture, 0, 40.0 * hour).sd(Parameter::lag_scale),
            usual.sd(Parameter::lag_scale));
  const LaterByAge said = later_by_age(culture);
  EXPECT_GT(said.later, said.typical);
  EXPECT_LT(said.low, said.later);
  EXPECT_GT(said.high, said.later);
  EXPECT_THAT(said.words, testing::HasSubstr("after 12 h past its peak it starts about"));
  EXPECT_THAT(said.words, testing::HasSubstr("a typical starter"));
}

TEST(LevainAge, FewBatchesChangeLittle) {
  // Two batches whose lags differ threefold over ten hours move the slope by less than half of
  // that.
  Culture culture{"marsh", {}};
  put(culture, heard(0, 0, -0.55, 0.3));
  put(culture, heard(1, 10, 0.55, 0.3));
  const CultureBelief told = belief_of(culture);
  EXPECT_GT(told.slope, 0);
  EXPECT_LT(told.slope, 0.5 * 0.11);
}

TEST(LevainAge, IsKeptInTheFile) {
  Culture culture = with_ages({-1.25, 7}, 0.1);
  culture.batches[1].levain_age_h.reset();
  const auto again = parse_culture(to_toml(culture), "marsh.toml");
  ASSERT_THAT(again, Holds());
  EXPECT_EQ(again->batches[0].levain_age_h, -1.25);
  EXPECT_FALSE(again->batches[1].levain_age_h);
}

}  // namespace
}  // namespace barm::estimation

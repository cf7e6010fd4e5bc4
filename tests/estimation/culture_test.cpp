#include "estimation/culture.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

#include "estimation/outlook.h"
#include "estimation/suspect.h"
#include "numerics/random.h"
#include "support/doughs.h"
#include "support/matchers.h"

namespace barm::estimation {
namespace {

using kinetics::Parameter;
using test::FailsWith;
using test::Holds;

constexpr double read_at[] = {1, 2, 3, 4, 5, 6, 7, 8};

std::size_t place(Parameter parameter) {
  return static_cast<std::size_t>(
      std::find(culture_parameters.begin(), culture_parameters.end(), parameter) -
      culture_parameters.begin());
}

DoughToRead dough() {
  forecast::Proving proving;
  proving.horizon = 72.0 * hour;
  return prepare(test::wine_dough(), day_one_belief(), proving);
}

// A batch of a culture that bears `factor` times the published alcohol, everything else as on day
// one.
BatchLesson batch_of(double factor, int number) {
  const DoughToRead truth = [&] {
    DoughToRead batch = dough();
    batch.ln_mean[static_cast<std::size_t>(Parameter::wild_ethanol_half)] += std::log(factor);
    return batch;
  }();
  numerics::Random random(static_cast<std::uint64_t>(number), 31);
  const std::vector<double> z(truth.dimension(), 0.0);
  const auto readings =
      simulated(truth, z, read_at, 45.0 * millimetre, [&] { return random.normal(); });
  const DoughToRead batch = dough();
  const auto learned = learn(batch, *readings, {.draws = 500});
  return lesson_of(batch, *learned, "batch " + std::to_string(number), 20000 + 7 * number);
}

Culture of(double factor, int batches) {
  Culture culture{"marsh", {}};
  for (int i = 0; i < batches; ++i) put(culture, batch_of(factor, i));
  return culture;
}

TEST(Culture, WithoutBatchesIsDayOne) {
  const Belief next = next_batch({"new", {}});
  const Belief day_one = day_one_belief();
  for (std::size_t i = 0; i < next.mean.size(); ++i)
    EXPECT_NEAR(next.mean[i], day_one.mean[i], 1e-12);
  for (std::size_t i = 0; i < next.covariance.size(); ++i)
    EXPECT_NEAR(next.covariance[i], day_one.covariance[i], 1e-9);
}

TEST(Culture, IsAPriorOfTheForecast) {
  const Belief belief = next_batch(of(1.3, 2));
  const Belief again = belief_of(prior_of(belief));
  EXPECT_EQ(again.mean, belief.mean);
  for (std::size_t i = 0; i < belief.covariance.size(); ++i)
    EXPECT_NEAR(again.covariance[i], belief.covariance[i], 1e-10);
}

TEST(Culture, LearnsHowMuchAlcoholItBears) {
  const std::size_t alcohol = place(Parameter::wild_ethanol_half);
  const CultureBelief strong = belief_of(of(1.4, 6));
  const CultureBelief weak = belief_of(of(0.7, 6));
  EXPECT_GT(strong.mean[alcohol], weak.mean[alcohol] + 0.2);
  EXPECT_LT(strong.sd[alcohol], 0.75 * strong.before[alcohol]);
}

// One batch fewer is not "the batch taken back" but the same computation without it: to the last
// bit.
TEST(Culture, LeavesABatchOutAsIfItHadNeverBeen) {
  const Culture all = of(1.3, 7);
  Culture never{"marsh", {}};
  for (const BatchLesson& lesson : all.batches) {
    if (lesson.batch != "batch 3") put(never, lesson);
  }
  const auto rest = without(all, "batch 3");
  ASSERT_THAT(rest, Holds());
  const CultureBelief a = belief_of(*rest);
  const CultureBelief b = belief_of(never);
  EXPECT_EQ(a.mean, b.mean);
  EXPECT_EQ(a.sd, b.sd);
  EXPECT_EQ(a.next.covariance, b.next.covariance);
  EXPECT_NE(a.mean, belief_of(all).mean);
  EXPECT_THAT(without(all, "batch 99"), FailsWith(ErrorCode::not_found));
}

TEST(Culture, DoesNotMindTheOrderOfLearning) {
  const Culture forward = of(1.2, 5);
  Culture backward{"marsh", {}};
  for (auto b = forward.batches.rbegin(); b != forward.batches.rend(); ++b) put(backward, *b);
  EXPECT_EQ(belief_of(forward).mean, belief_of(backward).mean);
  Culture twice = forward;
  put(twice, forward.batches[2]);
  EXPECT_EQ(belief_of(forward).mean, belief_of(twice).mean);
}

TEST(Culture, ForgetsSlowly) {
  const Culture culture = of(1.4, 4);
  const std::size_t alcohol = place(Parameter::wild_ethanol_half);
  const auto row = static_cast<std::size_t>(culture_parameters[alcohol]);
  const Belief soon = next_batch(culture, 20030);
  const Belief late = next_batch(culture, 20030 + 2000);
  EXPECT_EQ(soon.mean, late.mean);
  EXPECT_GT(late.sd(culture_parameters[alcohol]), soon.sd(culture_parameters[alcohol]));
  EXPECT_GT(soon.mean[row], 0);
}

// The lesson of a batch must not depend on what was believed when it was learned: here from day
// one, and from a belief that knows the alcohol better.
TEST(Culture, TakesALessonWithoutItsPrior) {
  DoughToRead batch = dough();
  const std::vector<double> z(batch.dimension(), 0.0);
  const auto readings = simulated(batch, z, read_at, 45.0 * millimetre);
  const auto from_day_one = lesson_of(batch, *learn(batch, *readings), "a", 1);
  Belief narrow = day_one_belief();
  for (std::size_t i = 0; i < narrow.mean.size(); ++i) {
    const auto own = static_cast<std::size_t>(Parameter::wild_ethanol_half);
    narrow.covariance[own * narrow.mean.size() + i] *= 0.6;
    narrow.covariance[i * narrow.mean.size() + own] *= 0.6;
  }
  forecast::Proving proving;
  proving.horizon = 72.0 * hour;
  const DoughToRead other = prepare(test::wine_dough(), narrow, proving);
  const auto from_narrow = lesson_of(other, *learn(other, *readings), "a", 1);
  const CultureBelief a = belief_of({"x", {from_day_one}});
  const CultureBelief b = belief_of({"x", {from_narrow}});
  for (std::size_t i = 0; i < culture_size; ++i) {
    EXPECT_NEAR(a.mean[i], b.mean[i], 0.15 * a.before[i]) << i;
    EXPECT_NEAR(a.sd[i] / b.sd[i], 1, 0.1) << i;
  }
}

TEST(Culture, KeepsItsMemoryAsAText) {
  Culture culture = of(1.1, 3);
  culture.name = "The \"old\" one";
  culture.batches[0].bake = "bakes/mead.toml";
  const auto again = parse_culture(to_toml(culture), "marsh.toml");
  ASSERT_THAT(again, Holds());
  EXPECT_EQ(again->name, culture.name);
  ASSERT_EQ(again->batches.size(), 3);
  EXPECT_EQ(again->batches[0].bake, "bakes/mead.toml");
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(again->batches[i].push, culture.batches[i].push);
    EXPECT_EQ(again->batches[i].sharpness, culture.batches[i].sharpness);
  }
  EXPECT_EQ(belief_of(*again).mean, belief_of(culture).mean);
}

TEST(Culture, RefusesATextThatIsNoMemory) {
  EXPECT_THAT(parse_culture("name = [", "c.toml"), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(parse_culture("name = \"x\"", "c.toml"), FailsWith(ErrorCode::bad_input));
  Culture culture = of(1.1, 1);
  std::string text = to_toml(culture);
  text.replace(text.find("push = ["), 8, "push = [7, ");
  const auto wrong = parse_culture(text, "c.toml");
  ASSERT_THAT(wrong, FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(wrong.error().where, testing::StartsWith("c.toml:"));
}

TEST(Culture, IsLearnedAnewWithProgressAndCanBeStopped) {
  const Culture culture = of(1.1, 4);
  std::vector<double> shares;
  const auto same = [](const BatchLesson& old) { return Result<BatchLesson>(old); };
  const auto again = relearned(culture, same, [&](double share) { shares.push_back(share); });
  ASSERT_THAT(again, Holds());
  EXPECT_EQ(shares, (std::vector<double>{0.25, 0.5, 0.75, 1}));
  int asked = 0;
  const auto stopped = relearned(culture, same, nullptr, [&] { return ++asked > 2; });
  EXPECT_THAT(stopped, FailsWith(ErrorCode::cancelled));
}

double shifted(const CultureBelief& belief, std::size_t i) {
  const Belief day_one = day_one_belief();
  const double start = day_one.mean[static_cast<std::size_t>(culture_parameters[i])];
  return (belief.mean[i] - start) / belief.before[i];
}

// What a batch does not speak of is not learned by hearing it a hundred times: the slope of chance
// draws without curvature beside it made heat 1.79 times the published with "nothing known yet".
// All on one day: what a culture drifts in a hundred is doubt of its own.
TEST(Culture, AHundredCopiesTeachNothingThatOneDoesNotSpeakOf) {
  const BatchLesson once = batch_of(1.2, 1);
  Culture culture{"marsh", {}};
  for (int i = 0; i < 100; ++i) {
    BatchLesson copy = once;
    copy.batch = std::to_string(i);
    put(culture, copy);
  }
  const CultureBelief belief = belief_of(culture);
  for (std::size_t i = 0; i < culture_size; ++i) {
    EXPECT_LT(std::abs(shifted(belief, i)), 3) << i;
    EXPECT_LT(belief.sd[i], belief.before[i] * 1.001) << i;
  }
  for (const Difference& one : differences(culture)) {
    if (one.known) continue;
    EXPECT_EQ(one.words, "nothing known yet");
    EXPECT_NEAR(std::log(one.factor), 0, 0.25) << one.about;
  }
}

// Readings that speak of nothing leave neither slope nor curvature.
TEST(Culture, DropsDirectionsWithoutInformation) {
  const DoughToRead batch = dough();
  const double early[] = {0.5, 1};
  const std::vector<double> z(batch.dimension(), 0.0);
  numerics::Random random(5, 5);
  const auto readings =
      simulated(batch, z, early, 45.0 * millimetre, [&] { return random.normal(); });
  const auto lesson = lesson_of(batch, *learn(batch, *readings, {.draws = 500}), "early", 1);
  const CultureBelief none = belief_of({"marsh", {}});
  const CultureBelief one = belief_of({"marsh", {lesson}});
  for (std::size_t i = 0; i < culture_size; ++i) EXPECT_NEAR(one.mean[i], none.mean[i], 0.02) << i;
}

// Five doughs that never moved: something was wrong with them, and no number runs away.
TEST(Culture, FiveDeadDoughsStayWithinWhatIsBelieved) {
  Culture culture{"marsh", {}};
  for (int i = 0; i < 5; ++i) {
    Readings readings;
    readings.start_mark = 45.0 * millimetre;
    for (const double t : {3.0, 6.0, 9.0, 12.0}) {
      Reading row;
      row.at = t * hour;
      row.height = 45.0 * millimetre;
      readings.rows.push_back(row);
    }
    DoughToRead batch = dough();
    widen(batch, readings);
    put(culture,
        lesson_of(
            batch, *learn(batch, readings, {.draws = 500, .walk = false}), std::to_string(i), i));
  }
  const CultureBelief belief = belief_of(culture);
  for (std::size_t i = 0; i < culture_size; ++i) EXPECT_LT(std::abs(shifted(belief, i)), 2.5) << i;
}

// Batches that are strong and weak in turn: the middle of both, and a next batch less sure than of
// a culture that is always the same.
TEST(Culture, AlternatingBatchesLeaveTheNextOneOpen) {
  Culture turns{"marsh", {}};
  for (int i = 0; i < 6; ++i) put(turns, batch_of(i % 2 == 0 ? 1.5 : 0.67, i));
  const Culture steady = of(1, 6);
  const auto alcohol = Parameter::wild_ethanol_half;
  EXPECT_GT(next_batch(turns).sd(alcohol), next_batch(steady).sd(alcohol));
  EXPECT_NEAR(belief_of(turns).mean[place(alcohol)], belief_of(steady).mean[place(alcohol)], 0.2);
}

TEST(Culture, SaysHowItDiffersFromTheBook) {
  const auto said = differences(of(1.5, 8));
  const Difference& alcohol = said[place(Parameter::wild_ethanol_half)];
  EXPECT_EQ(alcohol.about, "alcohol");
  EXPECT_THAT(alcohol.words, testing::HasSubstr("copes with more alcohol"));
  EXPECT_GT(alcohol.high, alcohol.low);
  const Difference& heat = said[place(Parameter::warm_toxicity)];
  EXPECT_EQ(heat.words, "nothing known yet");
}

}  // namespace
}  // namespace barm::estimation

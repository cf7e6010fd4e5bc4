// Which numbers an answer rests on.
#include "forecast/rests_on.h"

#include <gtest/gtest.h>

#include "support/practice.h"

namespace barm::forecast {

namespace {

std::vector<Resting> resting(const formula::Bake& bake, const kinetics::JointPrior& prior) {
  Options options;
  options.draws = 200;
  options.prior = &prior;
  const auto hours = hours_to_ready(bake, options);
  if (!hours) throw std::runtime_error(hours.error().text());
  auto found = rests_on(bake, options, *hours);
  if (!found) throw std::runtime_error(found.error().text());
  return *std::move(found);
}

kinetics::JointPrior in_doubt_only(kinetics::Parameter parameter, double doubt) {
  kinetics::JointPrior prior;
  const auto i = static_cast<std::size_t>(parameter);
  prior.factor[i][i] = doubt;
  return prior;
}

TEST(RestsOn, ANumberThatAloneIsInDoubtCarriesMostOfIt) {
  const auto prior = in_doubt_only(kinetics::Parameter::pace, 0.3);
  const auto found = resting(test::bake_of({}), prior);
  EXPECT_EQ(found.front().number->name, "place.pace");
  EXPECT_GT(found.front().share, 0.6);
  EXPECT_EQ(found.back().share, 0);
}

TEST(RestsOn, RanksMostFirst) {
  const auto found = resting(test::bake_of(test::all_wine()), kinetics::day_one());
  ASSERT_EQ(found.size(), kinetics::parameter_count);
  for (std::size_t i = 0; i < found.size(); ++i) {
    EXPECT_GE(found[i].share, 0);
    EXPECT_LE(found[i].share, 1);
    EXPECT_LE(found[i].share, i > 0 ? found[i - 1].share : 1);
  }
}

TEST(RestsOn, NamesAGuessThatDecidesAndNothingElse) {
  const kinetics::Prior* guess = nullptr;
  const kinetics::Prior* known = nullptr;
  for (const auto& one : kinetics::priors()) {
    if (one.source->key == "guess") guess = &one;
    if (one.source->key != "guess") known = &one;
  }
  ASSERT_NE(guess, nullptr);
  ASSERT_NE(known, nullptr);
  const std::vector<Resting> decided{{guess, 0.4}, {known, 0.1}};
  const std::vector<Resting> shared{{guess, 0.2}, {known, 0.1}};
  const std::vector<Resting> looked_up{{known, 0.4}, {guess, 0.3}};
  ASSERT_TRUE(guess_that_decides(decided).has_value());
  EXPECT_NE(guess_that_decides(decided)->find(guess->name), std::string::npos);
  EXPECT_FALSE(guess_that_decides(shared).has_value());
  EXPECT_FALSE(guess_that_decides(looked_up).has_value());
}

}  // namespace

}  // namespace barm::forecast

// In-sample floor: the program answers what others have measured no worse than this. In-sample, for
// whoever changes the model has these rows before his eyes and some of them in the prior; it
// catches a broken model, and tells nothing of how true a whole one is. That is what
// docs/evidence.md and the check that leaves sources out are for.
#include <gtest/gtest.h>

#include <string>

#include "support/evidence_score.h"

namespace barm::test {

namespace {

struct Scored {
  double score = 0, held = 0;
};

Scored scored_with(const std::function<void(kinetics::Parameters<double>&)>& adjust = nullptr) {
  const std::string data = std::string(BARM_ROOT) + "/data/evidence";
  const auto rows = evidence_rows(data);
  const auto asks = evidence_asks(data, rows);
  AnswerOptions options;
  options.draws = 200;
  options.adjust = adjust;
  const auto all = scored(asks, rows, options);
  return {score_of(all), coverage_of(all)};
}

// What it scores today (0.29 and 53 %) and a little for another processor's last digits; the seed
// is fixed. Raise the one and lower the other never; when the
// model has become better, bring both up to it.
constexpr double worst_score = 0.295;
constexpr double least_held = 0.48;

void halve_growth(kinetics::Parameters<double>& p) {
  using P = kinetics::Parameter;
  for (const P growth : {P::wild_growth, P::bakers_growth, P::bacteria_growth}) p[growth] *= 0.5;
}

TEST(InSampleFloor, TheModelAnswersTheWorldNoWorseThanThis) {
  const Scored now = scored_with();
  EXPECT_LT(now.score, worst_score);
  EXPECT_GT(now.held, least_held);
}

TEST(InSampleFloor, CatchesAModelWhoseGrowthIsHalved) {
  const Scored broken = scored_with(halve_growth);
  RecordProperty("score", std::to_string(broken.score));
  EXPECT_GT(broken.score, worst_score);
}

}  // namespace

}  // namespace barm::test

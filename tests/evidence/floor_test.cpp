// In-sample floor: the program answers what others have measured no worse than this. In-sample, for
// whoever changes the model has these rows before his eyes and some of them in the prior; it
// catches a broken model, and tells nothing of how true a whole one is. That is what
// docs/evidence.md and the check that leaves sources out are for.
#include <gtest/gtest.h>

#include <string>

#include "support/evidence_score.h"

namespace barm::test {

namespace {

struct Standing {
  double score = 0, held = 0;
};

Standing standing(const std::function<void(kinetics::Parameters<double>&)>& adjust = nullptr) {
  const std::string data = std::string(BARM_ROOT) + "/data/evidence";
  const auto rows = evidence_rows(data);
  const auto asks = evidence_asks(data, rows);
  AnswerOptions options;
  options.draws = 200;
  options.adjust = adjust;
  const auto all = scored(asks, rows, options);
  return {score_of(all), coverage_of(all)};
}

// What it scores today (0.36 and 43 %) and a little for another processor's last digits; the seed
// is fixed. Raise the one and lower the other never; when the
// model has become better, bring both up to it.
constexpr double worst_score = 0.365;
constexpr double least_held = 0.38;

void halve_growth(kinetics::Parameters<double>& p) {
  using P = kinetics::Parameter;
  for (const P growth : {P::wild_growth, P::bakers_growth, P::bacteria_growth}) p[growth] *= 0.5;
}

TEST(InSampleFloor, TheModelAnswersTheWorldNoWorseThanThis) {
  const Standing now = standing();
  EXPECT_LT(now.score, worst_score);
  EXPECT_GT(now.held, least_held);
}

// The warm yeast and the hardy bacteria earn their place: without either, the measurements are
// answered worse. None of them but sourdough_counts has been learnt from. What taking the cool
// yeast or the mild bacteria out does stands in docs/model/kinetics.md.
TEST(InSampleFloor, TakingTheWarmOrTheHardyKindOutAnswersTheWorldWorse) {
  using P = kinetics::Parameter;
  const double with_all = standing().score;
  for (const P odds : {P::warm_odds, P::hardy_odds}) {
    const Standing without = standing([&](kinetics::Parameters<double>& p) { p[odds] = 1e-9; });
    EXPECT_GT(without.score, with_all) << (odds == P::warm_odds ? "yeast" : "bacteria");
  }
}

TEST(InSampleFloor, CatchesAModelWhoseGrowthIsHalved) {
  const Standing broken = standing(halve_growth);
  RecordProperty("score", std::to_string(broken.score));
  EXPECT_GT(broken.score, worst_score);
}

}  // namespace

}  // namespace barm::test

// How often the verdict is right, wrong and undecided on 200 simulated test bakes of each design.
#include <fmt/ranges.h>
#include <gmock/gmock.h>

#include <boost/math/distributions/binomial.hpp>
#include <cmath>
#include <numeric>
#include <sstream>

#include "support/command.h"
#include "support/known_misses.h"
#include "support/validation.h"
#include "testbakes/doughs_needed.h"
#include "testbakes/simulated.h"

namespace barm::testbakes {

namespace {

constexpr double target_right = 0.8;   // of the runs whose cause the design can tell
constexpr double target_wrong = 0.05;  // of all runs
constexpr double target_of_named = 0.9;

double share(int part, int whole) { return whole > 0 ? static_cast<double>(part) / whole : 0; }

void expect_share(const std::string& what, const std::string& wanted, double ours, bool agrees) {
  EXPECT_TRUE(test::as_known(what, agrees)) << what << ": " << ours << ", wanted " << wanted;
  test::record("Simulated test bakes", what, "known truth", wanted, ours, "share of runs", agrees);
}

void told(const std::string& what, double ours) {
  test::record("Simulated test bakes",
               what,
               "known truth",
               "no target",
               ours,
               "share of runs",
               std::string("told"));
}

test::Tally judged(const test::Design& design, unsigned long long seed) {
  std::vector<int> runs(200);
  std::iota(runs.begin(), runs.end(), 0);
  return test::tally(design, runs, seed);
}

void expect_right_and_hardly_wrong(const test::Design& design, const test::Tally& tally) {
  const double right = share(tally.right, tally.runs);
  const double wrong = share(tally.wrong, tally.runs);
  const double least = target_right * design.told_apart / 3;
  expect_share(design.name + ": right cause named",
               fmt::format("at least {:.2f}", least),
               right,
               right >= least);
  expect_share(design.name + ": a wrong cause named", "at most 0.05", wrong, wrong <= target_wrong);
  const double of_named = right / (right + wrong);
  expect_share(design.name + ": right among what is named",
               "at least 0.90",
               of_named,
               of_named >= target_of_named);
}

/// What nobody could better who sees every dough's speed itself: tools/oracle/verdict_limit.py.
double named_by_the_best_reader(const test::Design& design) {
  const auto test = test::test_of(design);
  const auto doughs = rivals(test).value();
  std::vector<std::string> doses;
  std::vector<double> half;
  std::vector<double> doubt;
  std::vector<double> power;
  for (const CausePrior& prior : cause_priors(doughs, test.causes)) {
    std::vector<double> of;
    for (const Rival& dough : doughs)
      of.push_back(doses_of(dough)[static_cast<std::size_t>(prior.cause)]);
    doses.push_back(fmt::format("[{}]", fmt::join(of, ",")));
    half.push_back(prior.half_speed_dose);
    doubt.push_back(prior.doubt);
    power.push_back(prior.power);
  }
  const Scatter scatter = usual_scatter();
  const std::string asked = fmt::format(
      R"({{"doses":[{}],"half":[{}],"doubt":[{}],"power":[{}],"sd":{},"days":{},"named":{},"runs":3000}})",
      fmt::join(doses, ","),
      fmt::join(half, ","),
      fmt::join(doubt, ","),
      fmt::join(power, ","),
      std::hypot(scatter.dough, scatter.jar),
      test.days.size(),
      VerdictOptions().named);
  std::istringstream said(test::output_of(
      fmt::format("/usr/bin/python3 '{}/tools/oracle/verdict_limit.py' '{}'", BARM_ROOT, asked)));
  double right = 0;
  said >> right;
  return right;
}

TEST(SimulatedTestBakes, FullFactorialNamesTheRightCause) {
  const auto& design = test::designs()[0];
  const double most = named_by_the_best_reader(design);
  told(design.name + ": named by a reader who knows law, scatter and every dough's speed", most);
  const auto tally = judged(design, 20261125);
  expect_right_and_hardly_wrong(design, tally);
  // Who has less to go by names no more, but for the luck of so many runs.
  EXPECT_LT(share(tally.right, tally.runs), most + 3 * std::sqrt(most * (1 - most) / tally.runs));
  // The range is said of a dough whose law nobody knows: it counts over both laws. One of 8 of 10
  // that holds fewer or more than this would be seen once in a thousand studies.
  const int named = tally.named[0] + tally.named[1];
  const int covered = tally.held[0] + tally.held[1];
  const boost::math::binomial held(named, 0.8);
  const double least = quantile(held, 0.0005);
  const double many = quantile(held, 0.9995);
  expect_share(design.name + ": half-speed dose within the range of 8 of 10",
               fmt::format("{:.2f} to {:.2f}", least / named, many / named),
               share(covered, named),
               covered >= least && covered <= many);
  told(design.name + ": the same, doughs of our own law", share(tally.held[0], tally.named[0]));
  told(design.name + ": the same, doughs of the rival law", share(tally.held[1], tally.named[1]));
}

TEST(SimulatedTestBakes, AliasedDesignIsNeverDecided) {
  const auto tally = judged(test::designs()[1], 7);
  expect_share("water and wine alone: not decided",
               "1",
               share(tally.undecided, tally.runs),
               tally.undecided == tally.runs);
}

TEST(SimulatedTestBakes, ThreeDoughsTellTheAlcohol) {
  const auto& design = test::designs()[2];
  expect_right_and_hardly_wrong(design, judged(design, 42));
}

TEST(SimulatedTestBakes, FourDoughsTellTheCauses) {
  const auto& design = test::designs()[3];
  expect_right_and_hardly_wrong(design, judged(design, 43));
}

}  // namespace

}  // namespace barm::testbakes

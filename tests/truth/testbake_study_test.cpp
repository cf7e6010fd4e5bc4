// The verdict on simulated test bakes: designs fixed beforehand, truths from the priors, every
// second run by a growth law that the model does not know. BARM_STUDY_RUNS asks for more runs; only
// a long study is written down (tools/study_long).
#include <gmock/gmock.h>

#include <cstdlib>

#include "support/validation.h"
#include "testbakes/simulated.h"

namespace barm::testbakes {

namespace {

int runs_asked(int usual) {
  const char* asked = std::getenv("BARM_STUDY_RUNS");
  return asked == nullptr ? usual : std::max(usual, std::atoi(asked));
}

// The short runs have fixed seeds and few runs, so that their bounds are wide; the wanted ones hold
// for a long run.
constexpr int long_run = 100;

void note(const std::string& what, const std::string& wanted, double ours, bool agrees) {
  if (runs_asked(0) < long_run) return;
  test::record("Simulated test bakes", what, "known truth", wanted, ours, "share of runs", agrees);
}

double share(int part, int whole) { return whole > 0 ? static_cast<double>(part) / whole : 0; }

TEST(SimulatedTestBakes, FullFactorialNamesTheRightCause) {
  const auto& design = test::designs()[0];
  const int runs = runs_asked(6);
  const auto tally = test::tally(design, runs, 20261125);
  const double right = share(tally.right, tally.runs);
  const double wrong = share(tally.wrong, tally.runs);
  EXPECT_GE(right, runs >= long_run ? 0.8 : 0.6);
  EXPECT_LE(wrong, runs >= long_run ? 0.05 : 0.17);
  note("full factorial of three causes on two days: right cause named",
       "at least 0.80",
       right,
       right >= 0.8);
  note("full factorial: a wrong cause named", "at most 0.05", wrong, wrong <= 0.05);
  const double covered = share(tally.covered, tally.asked_cover);
  note("full factorial: half-speed dose within the range of 8 of 10",
       "0.80",
       covered,
       covered >= 0.65);
}

TEST(SimulatedTestBakes, AliasedDesignIsNeverDecided) {
  const auto tally = test::tally(test::designs()[1], runs_asked(4), 7);
  EXPECT_EQ(tally.undecided, tally.runs);
  note("water and wine alone: not decided",
       "1",
       share(tally.undecided, tally.runs),
       tally.undecided == tally.runs);
}

TEST(SimulatedTestBakes, SmallDesignsNameNoWrongCause) {
  for (const std::size_t i : {2U, 3U}) {
    const auto& design = test::designs()[i];
    const int runs = runs_asked(4);
    const auto tally = test::tally(design, runs, 40 + i);
    const double wrong = share(tally.wrong, tally.runs);
    EXPECT_LE(wrong, runs >= long_run ? 0.05 : 0.26) << design.name;
    note(design.name + ": a wrong cause named", "at most 0.05", wrong, wrong <= 0.05);
    note(design.name + ": right cause named", "as it may be", share(tally.right, tally.runs), true);
  }
}

}  // namespace

}  // namespace barm::testbakes

#pragma once
// The verdict: the weight of each rival cause and of their combinations, and the hours each
// explains. docs/model/testbakes.md 4.
#include <functional>
#include <string>
#include <vector>

#include "testbakes/joint_model.h"
#include "testbakes/told_apart.h"

namespace barm::testbakes {

/// What the readings say of one hypothesis.
struct Fitted {
  Hypothesis acting = 0;
  double weight = 0;               ///< chance of this combination, all together 1
  double log_evidence = 0;         ///< up to a constant that all share
  std::vector<double> best;        ///< most probable unknowns
  std::vector<double> covariance;  ///< around them, row by row
};

enum class Finding { acts, does_not, not_decided };

struct CauseFound {
  CausePrior prior;
  Finding finding = Finding::not_decided;
  double weight = 0.5;       ///< chance that it acts
  bool can_be_named = true;  ///< these doughs can tell it from the others
  bool shown = false;        ///< doughs that hold it rose slower, whatever the law of growth
  double half_speed_dose = 0, half_low = 0, half_high = 0;  ///< if it acts; 8 of 10 such cultures
  double hours = 0, hours_low = 0, hours_high = 0;          ///< that it explains of the base dough
  bool at_least = false;  ///< the base dough never gets there: the hours are a lower bound
  std::string words;
};

struct Verdict {
  std::vector<CauseFound> causes;
  std::vector<Fitted> hypotheses;  ///< weightiest first
  ToldApart told_apart;
  std::string sentence;  ///< the answer
  double shape = 0.03;   ///< sd by which the doughs stray from the model's curves, as the jars show
  bool beyond = false;   ///< they stray further than the model knows: nothing is named
  /// Chance of each dough that it went its own way on all days, for no reason that was asked about.
  std::vector<double> own_way;
  std::vector<std::string> odd;  ///< readings that fit nothing, in words
  std::vector<double> fitted;    ///< of the weightiest hypothesis, in the order of the looks
  std::vector<Watched> observed;
};

struct VerdictOptions {
  int threads = 0;
  unsigned long long seed = 1;
  int draws = 60;  ///< for hours and their ranges
  std::function<bool()> cancelled;
  std::function<void(double)> progress;  ///< share done, ascending
  // Ours: so that of 200 full factorials, half by a law that is not ours, at least 0.80 name the
  // right cause and at most 0.05 a wrong one (docs/model/testbakes.md 7).
  double named = 0.85;   ///< weight from which a cause is named
  double cleared = 0.1;  ///< weight up to which it may be cleared
};

/// `rivals` as in the test bake, `observed` its jars. Each hypothesis is fitted by least squares
/// with the prior's rows (Levenberg & Marquardt) and weighed by Laplace's approximation,
///
///     ln p(y|H) = -1/2 |L^-1 (y - f)|^2 - 1/2 |z|^2 - 1/2 ln det(1 + J'J) + const,
///
/// each also with one dough going its own way (testbakes/internal/own_way.h),
///
/// with the errors of a jar correlated: reading and first mark by the millimetre, and straying from
/// any smooth curve for hours. Errors: no_convergence, cancelled.
/// Checked against: tests/testbakes/verdict_test.cpp, tests/truth/testbake_study_test.cpp.
[[nodiscard]] Result<Verdict> judge(const TestBake& test,
                                    const std::vector<Rival>& rivals,
                                    const std::vector<Watched>& observed,
                                    const VerdictOptions& options = {});

}  // namespace barm::testbakes

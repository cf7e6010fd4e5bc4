#pragma once
// What to bake next: candidate doughs by how much of the open question each is expected to settle.
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "testbakes/verdict.h"

namespace barm::testbakes {

/// A dough that may be baked next.
struct Candidate {
  Recipe recipe;
  Rival rival;
  double settles = 0;           ///< share of the open question, 0..1
  double nats = 0;              ///< the same as information
  std::optional<double> price;  ///< of its drinks, in `currency`
  std::string currency;
  std::optional<double> settles_per_money;  ///< share settled for one unit of money
  bool baked = false;                       ///< it is among the doughs already
  std::string reason;                       ///< one sentence
};

struct NextOptions {
  int draws = 96;      ///< cultures imagined under each hypothesis
  int readings = 300;  ///< sets of readings imagined for each candidate
  unsigned long long seed = 1;
  int threads = 0;
  std::function<bool()> cancelled;
  std::function<void(double)> progress;  ///< share done, ascending
};

/// Doughs that can be made from the base bake by words: the drink at several shares, every
/// combination of what is asked about (of alcohol, acid, sulphite, sugar) matched in plain water,
/// the drink simmered off with and without its alcohol given back. At most 40; what cannot be
/// weighed out is left out.
[[nodiscard]] std::vector<Recipe> usual_candidates(const TestBake& test);

/// Candidates with the most telling first. Each is imagined on a new day beside a plain dough, each
/// read six times within `test.within` and half as much again. `verdict` holds what is known so
/// far; without it the priors do. What the doughs baked, a plain one and the candidate together
/// could not tell apart counts as one answer. Candidates that cannot be weighed out are left out.
/// Errors: bad_input (nothing is asked about), cancelled. Checked against: brute force in
/// tests/testbakes/information_test.cpp.
[[nodiscard]] Result<std::vector<Candidate>> rank_next(const TestBake& test,
                                                       const std::vector<Rival>& rivals,
                                                       const std::optional<Verdict>& verdict,
                                                       const std::vector<Recipe>& candidates,
                                                       const NextOptions& options = {});

}  // namespace barm::testbakes

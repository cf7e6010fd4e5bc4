#pragma once
// Walkers that sample a density by each other's positions, for a density that is a standard normal
// prior times a likelihood speaking about few directions.
//
//   Goodman & Weare, Ensemble samplers with affine invariance, Comm. App. Math. Comp. Sci. 5 (2010)
//   65; Cotter, Roberts, Stuart & White, MCMC methods for functions, Stat. Sci. 28 (2013) 424.
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "base/result.h"

namespace barm::numerics {

/// ln likelihood of points, row by row; minus infinity where there is none.
using ManyLogLikelihoods =
    std::function<Result<std::vector<double>>(std::span<const double> points)>;

struct WalkOptions {
  std::size_t dimension = 1;
  std::size_t spoken_of = 1;  ///< the first so many coordinates are moved by stretches
  std::size_t rounds = 60;
  std::size_t forgotten = 20;  ///< first rounds that are thrown away
  std::size_t flocks = 4;      ///< that know nothing of each other, of as many walkers each
  std::uint64_t seed = 1;
};

/// Where the walkers have been after they forgot where they began.
struct Walk {
  std::vector<double> points;  ///< row by row, all of equal weight
  double effective = 0;        ///< independent draws worth as much, by the slowest coordinate
  double accepted = 0;         ///< share of all moves
  double r_hat = 1;            ///< how far the flocks, each in two halves of time, lie apart
};

/// Walks from `start` (walkers x dimension, an even number of walkers, at least 2 (spoken_of + 1)).
/// A round moves every walker three times. By turns of the two halves:
///
///     stretch      a' = a_j + s (a - a_j),  g(s) ~ 1/sqrt(s) on 1/2..2,  accept s^(r-1) p(a')/p(a)
///     Crank-Nicolson of the other coordinates   b' = sqrt(1 - beta^2) b + beta xi,
///                                               accept L(b')/L(b)
///
/// Flocks of walkers move by their own alone. How well they agree tells whether they have forgotten
/// where they began (Gelman's split R-hat, with a flock for a chain),
///
///     R = sqrt(1 + var(means of flocks and halves) / mean variance within),  the worst coordinate
///
/// Errors: those of the likelihood. Checked against: tests/numerics/walkers_test.cpp.
[[nodiscard]] Result<Walk> walk(const ManyLogLikelihoods& log_likelihood,
                                std::vector<double> start,
                                const WalkOptions& options);

/// Mean number of steps after which a chain has forgotten (integrated autocorrelation time with
/// Sokal's window), averaged over walkers. `chains`: steps x walkers.
[[nodiscard]] double correlation_time(std::span<const double> chains, std::size_t walkers);

}  // namespace barm::numerics

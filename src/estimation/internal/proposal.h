#pragma once
// Where draws are sought: along the few directions the readings speak about, around the place that
// suits what was drawn for all the others.
#include <span>
#include <vector>

#include "estimation/internal/posterior.h"
#include "numerics/random.h"

namespace barm::estimation::internal {

/// z = directions (a, b): a along the directions about which the readings speak more than a fifth
/// as loudly as the prior, b along the others.
///     b ~ the normal law of Laplace's method, along the coordinate axes as far as they go
///     a | b ~ t around  m(b),  where one or two Gauss-Newton steps lead from the best fit's a when
///             the rest is b:  m <- m - (A'WA + 1)^-1 (A'W r(m, b) + m)
/// The density is known exactly, so that the weights are exact too.
class Proposal {
 public:
  Proposal(const Posterior& posterior, const Best& best);

  /// Fills draws of dimension d each, and ln prior - ln q of each. Errors: those of the runs.
  [[nodiscard]] Result<std::vector<double>> draw(std::size_t count,
                                                 std::uint64_t seed,
                                                 std::uint64_t stream,
                                                 std::vector<double>& z) const;

  /// Shapes the laws of b and of a around m(b) after the draws made last and their weights.
  void learn(std::span<const double> z, std::span<const double> weight);

  /// Number of directions the readings speak about; after turn() they are the first coordinates.
  [[nodiscard]] std::size_t spoken_of() const { return spoken_of_; }

  /// J'WJ of the data at the best fit, dimension squared.
  [[nodiscard]] const std::vector<double>& curvature() const { return curvature_; }

  /// Into coordinates along the directions, and back; lengths stay.
  void turn(std::span<double> z) const;
  void turn_back(std::span<double> z) const;

 private:
  void learn_steps(const std::vector<double>& flat);
  void learn_rest(std::span<const double> z, const std::vector<double>& flat);
  [[nodiscard]] Result<std::vector<double>> middles(const std::vector<double>& turned) const;

  const Posterior& posterior_;
  std::size_t dimension_ = 0, spoken_of_ = 0, data_ = 0;
  std::vector<double> curvature_;
  std::vector<double> directions_;          // d x d, column by column, the spoken of first
  std::vector<double> best_;                // in turned coordinates
  std::vector<double> gain_;                // spoken_of x data: (A'WA + 1)^-1 A'W
  std::vector<double> ease_;                // spoken_of x spoken_of: (A'WA + 1)^-1
  std::vector<double> off_;                 // middle of a around m(b)
  std::vector<double> shape_;               // spoken_of squared, lower triangle by rows
  double ln_determinant_ = 0;               // of shape
  std::vector<double> rest_;                // sd along the other directions
  mutable std::vector<double> last_steps_;  // a - m(b) of the draws made last, for learn()
};

}  // namespace barm::estimation::internal

#pragma once
// Prior times likelihood of the unknowns of one batch, once its readings are there.
#include <span>
#include <vector>

#include "base/result.h"
#include "estimation/internal/seen.h"
#include "estimation/learn.h"
#include "forecast/many.h"

namespace barm::estimation::internal {

/// The most probable dough and how sharply the data point at it. Near it
///     - ln p(data | z) = 1/2 sum w r^2  to second order,  w = (nu + 1) / (nu n^2 + r^2)
/// of Student's law, n the noise found.
struct Best {
  std::vector<double> z;
  std::vector<double> residual;  ///< r of each datum, at usual noise
  std::vector<double> weight;    ///< w
  std::vector<double> jacobian;  ///< of r, data x dimension, by rows
  double cost = 0;               ///< - ln posterior but for constants
  double ln_noise = 0;
  double misfit = 0;  ///< root mean square of sqrt(w) r
};

class Posterior {
 public:
  Posterior(const DoughToRead& batch, const Readings& readings, LearnOptions options);

  [[nodiscard]] std::size_t dimension() const { return batch_.dimension(); }

  [[nodiscard]] const Seen& seen() const { return seen_; }

  /// ln p(data | z) of points, row by row, by lanes.
  [[nodiscard]] Result<std::vector<double>> log_likelihood(std::span<const double> z) const;

  /// The same with the residuals of each point: how far each datum lies off, in its own doubt.
  [[nodiscard]] Result<std::vector<double>> log_likelihood(
      std::span<const double> z,
      std::vector<double>& residuals,
      forecast::Precision precision = forecast::Precision::full) const;

  /// By Levenberg-Marquardt from the middle of the prior and, where that fits badly or by what is
  /// hardly believed, from the likeliest of many prior draws: the best of all.
  [[nodiscard]] Result<Best> best() const;

 private:
  [[nodiscard]] Best best_from(std::vector<double> start, double ln_noise) const;
  [[nodiscard]] Result<std::vector<std::vector<double>>> likeliest_of_prior() const;
  [[nodiscard]] double likely_noise(std::span<const double> residuals) const;

  const DoughToRead& batch_;
  Seen seen_;
  NoiseGrid noise_;
  LearnOptions options_;
};

}  // namespace barm::estimation::internal

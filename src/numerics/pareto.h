#pragma once
// Importance weights whose largest are smoothed, and a diagnosis of whether they can be trusted.
//
//   Vehtari, Simpson, Gelman, Yao & Gabry, Pareto smoothed importance sampling, J. Mach. Learn.
//   Res. 25 (2024) 72; the fit after Zhang & Stephens, Technometrics 51 (2009) 316.
#include <span>
#include <vector>

namespace barm::numerics {

/// The generalised Pareto law  P(X > x) = (1 + k x / scale)^(-1/k)  fitted to a tail.
struct Pareto {
  double k = 0;      ///< shape; moments of order 1/k and more do not exist
  double scale = 0;  ///< of the unit of the sample
};

/// Fit by the quasi-Bayesian estimate of Zhang & Stephens, drawn towards k = 1/2 as by ten more
/// values. `ascending`: at least five values above 0.
[[nodiscard]] Pareto fit_pareto(std::span<const double> ascending);

/// Weights made trustworthy as far as they go.
struct Smoothed {
  std::vector<double> weight;  ///< sum 1
  double k_hat = 0;            ///< below most_trusted(S): good; above 1 the mean does not exist
  double effective = 0;        ///< number of equal weights worth as much: 1 / sum w^2
  double log_mean = 0;         ///< ln of the mean of the weights given
};

/// Largest k-hat at which S draws still give a mean:  min(1 - 1/log10 S, 0.7).
[[nodiscard]] double most_trusted(std::size_t draws);

/// From the logarithms of weights, known up to a common factor; at least one of them finite.
/// Weights that are not numbers count as 0.
[[nodiscard]] Smoothed pareto_smooth(std::span<const double> log_weights);

}  // namespace barm::numerics

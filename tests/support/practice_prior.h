#pragma once
// The prior of the first day: the published priors, given the rows of practice.
//
// A row speaks of the usual culture and flour; a baker's own differ from them. So each doubt of the
// book is taken as two: how far the usual is from the published figures, of which the rows tell,
// and how far one's own is from the usual, of which they do not:
//     ln(value/book) = doubt ( sqrt(1 - own) z_usual + sqrt(own) z_own )
#include <cmath>
#include <functional>
#include <vector>

#include "kinetics/parameter.h"
#include "support/practice_doughs.h"
#include "support/slice_chains.h"

namespace barm::test {

/// Share of the published variance that is a matter of one's own culture and flour: a quarter, so
/// half of the doubt (a guess). The pace of the day and the place is all its own: no row about the
/// usual dough tells of it. How much gas a dough dissolves has been measured: it is not learnt from
/// what is believed, either.
inline double own_share(std::size_t parameter) {
  const auto of = static_cast<kinetics::Parameter>(parameter);
  const bool untaught = of == kinetics::Parameter::pace || of == kinetics::Parameter::dissolving;
  return untaught ? 1 : 0.25;
}

struct PracticePrior {
  std::size_t draws = 0;
  double effective = 0;  ///< independent draws that tell as much of the slowest parameter's mean
  std::vector<double> centre;                   ///< of z = ln(value/book)/doubt, by parameter
  std::vector<std::vector<double>> covariance;  ///< of z
  std::vector<double> error;  ///< standard error of `centre`, from how the chains differ
};

// The usual culture and flour.
inline kinetics::Parameters<double> parameters_at(const SliceChains::Point& z) {
  kinetics::Parameters<double> parameters;
  const auto priors = kinetics::priors();
  for (std::size_t i = 0; i < z.size(); ++i)
    parameters.value[i] =
        priors[i].book * std::exp(priors[i].doubt * std::sqrt(1 - own_share(i)) * z[i]);
  return parameters;
}

// From the usual to one's own, in units of the published doubt.
inline void add_own(PracticePrior& prior) {
  for (std::size_t i = 0; i < prior.centre.size(); ++i) {
    const double usual = std::sqrt(1 - own_share(i));
    prior.centre[i] *= usual;
    prior.error[i] *= usual;
    for (std::size_t j = 0; j < prior.centre.size(); ++j)
      prior.covariance[i][j] *= usual * std::sqrt(1 - own_share(j));
    prior.covariance[i][i] += own_share(i);
  }
}

/// Mean and covariance of all points, and what the spread of the chains' own means says of the
/// error.
inline PracticePrior summary(const std::vector<std::vector<SliceChains::Point>>& traces) {
  const std::size_t n = kinetics::parameter_count;
  PracticePrior prior;
  prior.centre.assign(n, 0);
  prior.covariance.assign(n, std::vector<double>(n, 0));
  prior.error.assign(n, 0);
  for (const auto& trace : traces) {
    for (const auto& z : trace) {
      ++prior.draws;
      for (std::size_t i = 0; i < n; ++i) prior.centre[i] += z[i];
    }
  }
  const auto count = static_cast<double>(prior.draws);
  for (double& mean : prior.centre) mean /= count;
  std::vector<double> between(n, 0);
  for (const auto& trace : traces) {
    std::vector<double> own(n, 0);
    for (const auto& z : trace) {
      for (std::size_t i = 0; i < n; ++i) {
        own[i] += (z[i] - prior.centre[i]) / static_cast<double>(trace.size());
        for (std::size_t j = 0; j < n; ++j)
          prior.covariance[i][j] += (z[i] - prior.centre[i]) * (z[j] - prior.centre[j]) / count;
      }
    }
    for (std::size_t i = 0; i < n; ++i) between[i] += own[i] * own[i];
  }
  const auto chains = static_cast<double>(traces.size());
  prior.effective = count;
  for (std::size_t i = 0; i < n; ++i) {
    prior.error[i] = std::sqrt(between[i] / (chains - 1) / chains);
    prior.effective =
        std::min(prior.effective, prior.covariance[i][i] / (prior.error[i] * prior.error[i]));
  }
  return prior;
}

/// Lower triangle whose product with its transpose is the matrix (Cholesky).
inline std::vector<std::vector<double>> lower_triangle(
    const std::vector<std::vector<double>>& matrix) {
  std::vector<std::vector<double>> l;
  for (std::size_t i = 0; i < matrix.size(); ++i) {
    l.emplace_back(i + 1, 0.0);
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = matrix[i][j];
      for (std::size_t k = 0; k < j; ++k) sum -= l[i][k] * l[j][k];
      l[i][j] = i == j ? std::sqrt(sum) : sum / l[j][j];
    }
  }
  return l;
}

/// The same as what a forecast starts from.
inline kinetics::JointPrior joint_prior(const PracticePrior& prior) {
  const auto book = kinetics::priors();
  std::vector<std::vector<double>> covariance = prior.covariance;
  kinetics::JointPrior joint;
  for (std::size_t i = 0; i < covariance.size(); ++i) {
    joint.centre[i] = prior.centre[i] * book[i].doubt;
    for (std::size_t j = 0; j < covariance.size(); ++j)
      covariance[i][j] *= book[i].doubt * book[j].doubt;
  }
  const auto factor = lower_triangle(covariance);
  for (std::size_t i = 0; i < factor.size(); ++i) {
    for (std::size_t j = 0; j <= i; ++j) joint.factor[i][j] = factor[i][j];
  }
  return joint;
}

/// Runs the chains for so many rounds; the first half of each is thrown away. Rows of practice of
/// the basis `without` are left out: how a prior is made that has not seen a source.
inline PracticePrior practice_prior(std::size_t chains,
                                    int rounds,
                                    std::uint64_t seed,
                                    int threads = 1,
                                    const std::function<void(int)>& tell = nullptr,
                                    std::string_view without = "") {
  const PracticeDoughs doughs(threads);
  SliceChains sampler(
      chains, kinetics::parameter_count, seed, [&](std::span<const SliceChains::Point> points) {
        std::vector<kinetics::Parameters<double>> sets;
        for (const auto& z : points) sets.push_back(parameters_at(z));
        std::vector<double> weights;
        for (const auto& outcomes : doughs.outcomes(sets))
          weights.push_back(log_likelihood(outcomes, without));
        return weights;
      });
  for (int r = 0; r < rounds; ++r) {
    sampler.round();
    if (tell) tell(r);
  }
  PracticePrior prior = summary(sampler.traces(0.5));
  add_own(prior);
  return prior;
}

}  // namespace barm::test

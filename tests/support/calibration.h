#pragma once
// Simulation-based calibration: doughs are drawn from the belief, read as it says they are read,
// and learned from. The place of the truth among what was learned must then be level between 0 and
// 1 (Cook, Gelman & Rubin 2006; Talts and others 2018).
#include <array>
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>
#include <functional>
#include <stdexcept>
#include <string>
#include <vector>

#include "estimation/learn.h"
#include "estimation/outlook.h"
#include "kinetics/system.h"
#include "numerics/random.h"

namespace barm::test {

/// Where the truths of one quantity stand: the weight of what was learned below each.
struct Places {
  std::string of;
  std::vector<double> place;

  /// Sum of (seen - expected)^2 / expected over equal bins.
  [[nodiscard]] double chi_square(std::size_t bins) const {
    std::vector<double> seen(bins, 0);
    for (const double p : place)
      seen[std::min(bins - 1, static_cast<std::size_t>(p * static_cast<double>(bins)))] += 1;
    const double expected = static_cast<double>(place.size()) / static_cast<double>(bins);
    double sum = 0;
    for (const double s : seen) sum += (s - expected) * (s - expected) / expected;
    return sum;
  }

  /// Sums over the n normal scores of the places, by which belief is too narrow or to one side: of
  /// squares, chi-square with n degrees of freedom; of the scores, its square over n, with one.
  [[nodiscard]] double squares() const {
    double sum = 0;
    for (const double p : place) sum += std::pow(numerics::normal_quantile(p), 2);
    return sum;
  }

  [[nodiscard]] double square_of_sum() const {
    double sum = 0;
    for (const double p : place) sum += numerics::normal_quantile(p);
    return sum * sum / static_cast<double>(place.size());
  }
};

/// What chi-square exceeds with this chance.
inline double chi_square_beyond(double chance, double freedom) {
  return quantile(complement(boost::math::chi_squared(freedom), chance));
}

/// What chi-square falls short of with this chance.
inline double chi_square_below(double chance, double freedom) {
  return quantile(boost::math::chi_squared(freedom), chance);
}

/// The place of the truth among draws worth `effective` equal ones: the truth is one more of them,
/// so that it stands in each gap between them alike; where in it is luck.
inline double place_of(double truth,
                       const std::vector<double>& values,
                       const std::vector<double>& weight,
                       double effective,
                       double luck) {
  double below = 0;
  double at = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values[i] < truth) below += weight[i];
    if (values[i] == truth) at += weight[i];
  }
  return (effective * (below + luck * at) + luck) / (effective + 1);
}

/// Runs `count` doughs of a batch: places of the hours to ready, of the lag and of the speed of the
/// yeast.
inline std::vector<Places> calibrate(const estimation::DoughToRead& batch,
                                     const std::vector<double>& hours,
                                     std::size_t count,
                                     std::uint64_t seed,
                                     const estimation::LearnOptions& options) {
  using kinetics::Parameter;
  constexpr std::array watched{Parameter::lag_scale, Parameter::wild_growth, Parameter::rise_limit};
  std::vector<Places> places{{"hours to ready", {}}};
  for (const Parameter p : watched)
    places.push_back({std::string(kinetics::priors()[static_cast<std::size_t>(p)].name), {}});
  const auto fail = [](const Error& error) -> void { throw std::runtime_error(error.text()); };
  for (std::size_t i = 0; i < count; ++i) {
    numerics::Random random(seed, i);
    std::vector<double> z(batch.dimension());
    for (double& x : z) x = random.normal();
    const auto readings =
        estimation::simulated(batch, z, hours, 40.0 * millimetre, [&] { return random.normal(); });
    if (!readings) fail(readings.error());
    const auto learned = estimation::learn(batch, *readings, options);
    if (!learned) fail(learned.error());
    const auto seen = estimation::outlook(batch, *readings, *learned, options);
    if (!seen) fail(seen.error());
    // The truth by the same road: one draw of weight one, its pace wandering on by its own luck.
    estimation::Learned truth = *learned;
    truth.z = z;
    truth.weight = {1.0};
    estimation::LearnOptions other = options;
    other.seed = seed + 1000003 * (i + 1);
    const auto true_outlook = estimation::outlook(batch, *readings, truth, other);
    if (!true_outlook) fail(true_outlook.error());
    places[0].place.push_back(place_of(true_outlook->ready_hours[0],
                                       seen->ready_hours,
                                       seen->weight,
                                       learned->effective,
                                       random.uniform()));
    const auto true_parameters = estimation::drawn(batch, z).parameters;
    for (std::size_t p = 0; p < watched.size(); ++p) {
      std::vector<double> values;
      for (std::size_t k = 0; k < learned->draws(); ++k)
        values.push_back(estimation::drawn(batch, learned->draw(k)).parameters[watched[p]]);
      places[p + 1].place.push_back(place_of(true_parameters[watched[p]],
                                             values,
                                             learned->weight,
                                             learned->effective,
                                             random.uniform()));
    }
  }
  return places;
}

}  // namespace barm::test

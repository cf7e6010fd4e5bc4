#include "numerics/walkers.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/require.h"
#include "numerics/random.h"

namespace barm::numerics {

namespace {

constexpr double beta = 0.35;
constexpr double widest_stretch_root = std::numbers::sqrt2;  // a stretch of 2 at most

double square_of_some(std::span<const double> row, std::size_t from, std::size_t to) {
  double sum = 0;
  for (std::size_t i = from; i < to; ++i) sum += row[i] * row[i];
  return sum;
}

class Walking {
 public:
  Walking(const ManyLogLikelihoods& log_likelihood,
          std::vector<double> start,
          const WalkOptions& options)
      : log_likelihood_(log_likelihood),
        options_(options),
        at_(std::move(start)),
        walkers_(at_.size() / options.dimension),
        random_(options.seed, 77) {}

  Result<Walk> go() {
    auto first = log_likelihood_(at_);
    if (!first) return failure(first);
    ln_ = std::move(*first);
    Walk out;
    for (std::size_t round = 0; round < options_.rounds; ++round) {
      for (int half = 0; half < 2; ++half) {
        for (const bool stretch : {true, false, true}) {
          if (!stretch && options_.spoken_of == options_.dimension) continue;
          const auto moved = move(static_cast<std::size_t>(half), stretch);
          if (!moved) return failure(moved);
        }
      }
      if (round >= options_.forgotten) out.points.insert(out.points.end(), at_.begin(), at_.end());
    }
    out.accepted = tried_ > 0 ? accepted_ / tried_ : 0;
    out.effective = effective_of(out.points);
    out.r_hat = r_hat_of(out.points);
    return out;
  }

 private:
  [[nodiscard]] std::span<double> row(std::size_t walker) {
    return std::span(at_).subspan(walker * options_.dimension, options_.dimension);
  }

  // One move of a half; returns how many were accepted.
  Result<std::size_t> move(std::size_t half, bool stretch) {
    const std::size_t d = options_.dimension;
    const std::size_t r = options_.spoken_of;
    const std::size_t size = walkers_ / 2;
    std::vector<double> proposed;
    std::vector<double> ln_factor(size, 0.0);
    proposed.reserve(size * d);
    for (std::size_t k = 0; k < size; ++k) {
      const std::span<double> own = row(half * size + k);
      if (stretch) {
        const std::size_t flock = size / options_.flocks;
        const auto other = static_cast<std::size_t>(random_.uniform() * static_cast<double>(flock));
        const std::span<double> pole =
            row((1 - half) * size + k / flock * flock + std::min(other, flock - 1));
        const double root = 1 / widest_stretch_root +
                            random_.uniform() * (widest_stretch_root - 1 / widest_stretch_root);
        const double s = root * root;
        for (std::size_t i = 0; i < d; ++i)
          proposed.push_back(i < r ? pole[i] + s * (own[i] - pole[i]) : own[i]);
        const std::span<const double> now = std::span(proposed).last(d);
        ln_factor[k] = static_cast<double>(r - 1) * std::log(s) -
                       0.5 * (square_of_some(now, 0, r) - square_of_some(own, 0, r));
      } else {
        const double keep = std::sqrt(1 - beta * beta);
        for (std::size_t i = 0; i < d; ++i)
          proposed.push_back(i < r ? own[i] : keep * own[i] + beta * random_.normal());
      }
    }
    const auto ln = log_likelihood_(proposed);
    if (!ln) return failure(ln);
    std::size_t accepted = 0;
    for (std::size_t k = 0; k < size; ++k) {
      const std::size_t walker = half * size + k;
      const double luck = std::log(random_.uniform());
      if (!(luck < ln_factor[k] + (*ln)[k] - ln_[walker])) continue;
      std::copy_n(proposed.begin() + static_cast<std::ptrdiff_t>(k * d), d, row(walker).begin());
      ln_[walker] = (*ln)[k];
      ++accepted;
    }
    accepted_ += static_cast<double>(accepted);
    tried_ += static_cast<double>(size);
    return accepted;
  }

  [[nodiscard]] double r_hat_of(const std::vector<double>& points) const {
    double worst = 1;
    for (std::size_t i = 0; i < options_.dimension; ++i)
      worst = std::max(worst, r_hat_of(points, i));
    return worst;
  }

  // A chain is a flock in one half of the time. Of one coordinate, with W the mean of the chains'
  // variances and B the variance of their means:   R = sqrt(1 + B / W)
  [[nodiscard]] double r_hat_of(const std::vector<double>& points, std::size_t coordinate) const {
    const std::size_t d = options_.dimension;
    const std::size_t rows = points.size() / d;
    const std::size_t size = walkers_ / 2;
    const std::size_t in_a_flock = std::max<std::size_t>(1, size / options_.flocks);
    std::vector<double> sum(2 * options_.flocks, 0.0);
    std::vector<double> square(sum.size(), 0.0);
    std::vector<double> count(sum.size(), 0.0);
    for (std::size_t t = 0; t < rows; ++t) {
      const std::size_t flock = t % walkers_ % size / in_a_flock;
      const std::size_t chain = 2 * flock + (2 * t >= rows ? 1 : 0);
      const double x = points[t * d + coordinate];
      sum[chain] += x;
      square[chain] += x * x;
      count[chain] += 1;
    }
    const auto n = static_cast<double>(sum.size());
    double within = 0;
    double all = 0;
    double squares = 0;
    for (std::size_t c = 0; c < sum.size(); ++c) {
      const double mean = sum[c] / count[c];
      within += (square[c] / count[c] - mean * mean) / n;
      all += mean;
      squares += mean * mean;
    }
    const double between = (squares - all * all / n) / (n - 1);
    return within > 0 ? std::sqrt(1 + between / within) : 1;
  }

  [[nodiscard]] double effective_of(const std::vector<double>& points) const {
    const std::size_t d = options_.dimension;
    const std::size_t rows = points.size() / d;
    double slowest = 1;
    for (std::size_t i = 0; i < options_.spoken_of; ++i) {
      std::vector<double> chain(rows);
      for (std::size_t t = 0; t < rows; ++t) chain[t] = points[t * d + i];
      slowest = std::max(slowest, correlation_time(chain, walkers_));
    }
    return static_cast<double>(rows) / slowest;
  }

  const ManyLogLikelihoods& log_likelihood_;
  WalkOptions options_;
  std::vector<double> at_;
  std::vector<double> ln_;
  std::size_t walkers_;
  Random random_;
  double accepted_ = 0, tried_ = 0;
};

}  // namespace

double correlation_time(std::span<const double> chains, std::size_t walkers) {
  constexpr double window = 5;
  const std::size_t steps = chains.size() / walkers;
  double mean = 0;
  for (const double x : chains) mean += x;
  mean /= static_cast<double>(chains.size());
  const auto covariance = [&](std::size_t lag) {
    double sum = 0;
    for (std::size_t t = 0; t + lag < steps; ++t) {
      for (std::size_t w = 0; w < walkers; ++w)
        sum += (chains[t * walkers + w] - mean) * (chains[(t + lag) * walkers + w] - mean);
    }
    return sum / static_cast<double>((steps - lag) * walkers);
  };
  const double variance = covariance(0);
  if (!(variance > 0)) return static_cast<double>(steps);
  double tau = 1;
  for (std::size_t lag = 1; lag < steps; ++lag) {
    tau += 2 * covariance(lag) / variance;
    if (static_cast<double>(lag) >= window * tau) break;
  }
  return std::max(1.0, tau);
}

Result<Walk> walk(const ManyLogLikelihoods& log_likelihood,
                  std::vector<double> start,
                  const WalkOptions& options) {
  const std::size_t walkers = start.size() / options.dimension;
  require(
      walkers % (2 * options.flocks) == 0 && options.spoken_of >= 1 &&
          walkers >= 2 * options.flocks * (options.spoken_of + 1),
      "flocks of an even number of walkers, more than twice the coordinates they stretch along");
  return Walking(log_likelihood, std::move(start), options).go();
}

}  // namespace barm::numerics

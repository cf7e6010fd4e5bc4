#pragma once
// Elliptical slice sampling (Murray, Adams & MacKay 2010): draws from a normal prior weighted by a
// likelihood. Nothing to tune. Many chains go side by side, so that one call weighs a proposal of
// each.
#include <cmath>
#include <functional>
#include <numbers>
#include <span>
#include <vector>

#include "numerics/random.h"

namespace barm::test {

class SliceChains {
 public:
  using Point = std::vector<double>;  ///< independent standard normal before the likelihood
  using LogLikelihood = std::function<std::vector<double>(std::span<const Point>)>;

  SliceChains(std::size_t chains, std::size_t dimension, std::uint64_t seed, LogLikelihood weigh)
      : dimension_(dimension), weigh_(std::move(weigh)) {
    for (std::size_t c = 0; c < chains; ++c) {
      Chain chain{numerics::Random(seed, c), {}, 0, {}, 0, 0, 0, 0, {}};
      chain.here = normals(chain.random);
      chains_.push_back(std::move(chain));
    }
    std::vector<Point> all;
    for (const Chain& chain : chains_) all.push_back(chain.here);
    const auto weights = weigh_(all);
    for (std::size_t c = 0; c < chains; ++c) {
      chains_[c].weight = weights[c];
      begin(chains_[c]);
    }
  }

  /// Weighs one proposal of each chain; a chain that moved has its new point in its trace.
  void round() {
    std::vector<Point> proposals;
    for (Chain& chain : chains_) proposals.push_back(proposal(chain));
    const auto weights = weigh_(proposals);
    for (std::size_t c = 0; c < chains_.size(); ++c) {
      Chain& chain = chains_[c];
      if (weights[c] > chain.level) {
        chain.here = proposals[c];
        chain.weight = weights[c];
        chain.trace.push_back(chain.here);
        begin(chain);
      } else {
        (chain.angle < 0 ? chain.low : chain.high) = chain.angle;
        chain.angle = chain.low + (chain.high - chain.low) * chain.random.uniform();
      }
    }
  }

  /// The points of every chain after its first `share` of them, chain by chain.
  [[nodiscard]] std::vector<std::vector<Point>> traces(double share) const {
    std::vector<std::vector<Point>> out;
    for (const Chain& chain : chains_) {
      const auto skip =
          static_cast<std::ptrdiff_t>(share * static_cast<double>(chain.trace.size()));
      out.emplace_back(chain.trace.begin() + skip, chain.trace.end());
    }
    return out;
  }

 private:
  struct Chain {
    numerics::Random random;
    Point here;
    double weight;
    Point other;  // the ellipse goes through here and other
    double level, angle, low, high;
    std::vector<Point> trace;
  };

  [[nodiscard]] Point normals(numerics::Random& random) const {
    Point point(dimension_);
    for (double& x : point) x = random.normal();
    return point;
  }

  void begin(Chain& chain) const {
    chain.other = normals(chain.random);
    chain.level = chain.weight + std::log(chain.random.uniform());
    chain.angle = 2 * std::numbers::pi * chain.random.uniform();
    chain.low = chain.angle - 2 * std::numbers::pi;
    chain.high = chain.angle;
  }

  [[nodiscard]] Point proposal(const Chain& chain) const {
    Point point(dimension_);
    const double c = std::cos(chain.angle);
    const double s = std::sin(chain.angle);
    for (std::size_t i = 0; i < dimension_; ++i) point[i] = c * chain.here[i] + s * chain.other[i];
    return point;
  }

  std::size_t dimension_;
  LogLikelihood weigh_;
  std::vector<Chain> chains_;
};

}  // namespace barm::test

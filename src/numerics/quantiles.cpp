#include "numerics/quantiles.h"

#include <algorithm>
#include <cmath>

#include "base/require.h"

namespace barm::numerics {

double quantile(std::span<const double> sorted, double p) {
  require(!sorted.empty() && p >= 0 && p <= 1, "a quantile needs a sample and a share of it");
  const double position = p * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(position);
  const double part = position - static_cast<double>(below);
  if (part == 0 || below + 1 >= sorted.size() || std::isinf(sorted[below])) return sorted[below];
  return sorted[below] + part * (sorted[below + 1] - sorted[below]);
}

std::vector<double> quantiles(std::span<double> sample, std::span<const double> shares) {
  std::vector<double> out;
  auto in_order = sample.begin();  // what is before has its place
  for (const double p : shares) {
    require(!sample.empty() && p >= 0 && p <= 1, "a quantile needs a sample and a share of it");
    const double position = p * static_cast<double>(sample.size() - 1);
    const auto below = sample.begin() + static_cast<std::ptrdiff_t>(position);
    if (below >= in_order) std::nth_element(in_order, below, sample.end());
    if (below + 1 < sample.end())
      std::iter_swap(below + 1, std::min_element(below + 1, sample.end()));
    in_order = below;
    out.push_back(quantile(sample, p));
  }
  return out;
}

std::vector<double> sorted(std::vector<double> sample) {
  std::sort(sample.begin(), sample.end());
  return sample;
}

namespace {

struct Weighted {
  double value = 0, weight = 0;

  bool operator<(const Weighted& other) const {
    return value != other.value ? value < other.value : weight < other.weight;
  }
};

// Puts in order what lies about the wanted shares of the weight, each within half of a value's
// weight; what lies between is smaller than what comes after it and in no order.
class InOrderAbout {
 public:
  InOrderAbout(std::span<const double> wanted, double most) : wanted_(wanted), most_(most) {}

  // `before` is the weight of all that is smaller.
  void put(std::span<Weighted> values, double before) const {
    constexpr std::size_t few = 48;
    if (values.size() <= few) return std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    std::nth_element(
        values.begin(), values.begin() + static_cast<std::ptrdiff_t>(half), values.end());
    const auto left = values.first(half);
    const auto right = values.subspan(half);
    const double of_left = weight(left);
    if (asked_for(before, before + of_left)) put(left, before);
    if (asked_for(before + of_left, before + of_left + weight(right))) put(right, before + of_left);
  }

 private:
  static double weight(std::span<const Weighted> values) {
    double sum = 0;
    for (const Weighted& one : values) sum += one.weight;
    return sum;
  }

  [[nodiscard]] bool asked_for(double from, double until) const {
    return std::any_of(wanted_.begin(), wanted_.end(), [&](double one) {
      return one >= from - most_ && one <= until + most_;
    });
  }

  std::span<const double> wanted_;  // weights
  double most_;                     // of one value
};

}  // namespace

double weighted_quantile(std::span<const double> values,
                         std::span<const double> weights,
                         double p) {
  return weighted_quantiles(values, weights, std::span(&p, 1)).front();
}

std::vector<double> weighted_quantiles(std::span<const double> values,
                                       std::span<const double> weights,
                                       std::span<const double> shares) {
  require(!values.empty() && values.size() == weights.size(),
          "a quantile needs values and as many weights");
  std::vector<Weighted> kept;
  kept.reserve(values.size());
  double all = 0;
  double most = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!(weights[i] > 0)) continue;
    kept.push_back({values[i], weights[i]});
    all += weights[i];
    most = std::max(most, weights[i]);
  }
  require(!kept.empty(), "all weights are 0");
  std::vector<double> wanted;
  for (const double p : shares) {
    require(p >= 0 && p <= 1, "a share of a sample");
    wanted.push_back(p * all);
  }
  InOrderAbout(wanted, most).put(kept, 0);
  const auto at = [&](double p) {
    double below = 0;
    double last_middle = 0;
    for (std::size_t i = 0; i < kept.size(); ++i) {
      const double middle = (below + 0.5 * kept[i].weight) / all;
      if (middle >= p) {
        if (i == 0 || std::isinf(kept[i].value)) return kept[i].value;
        const double part = (p - last_middle) / (middle - last_middle);
        return kept[i - 1].value + part * (kept[i].value - kept[i - 1].value);
      }
      below += kept[i].weight;
      last_middle = middle;
    }
    return kept.back().value;
  };
  std::vector<double> out;
  for (const double p : shares) out.push_back(at(p));
  return out;
}

}  // namespace barm::numerics

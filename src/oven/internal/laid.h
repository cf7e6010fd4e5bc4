#pragma once
// Answers laid between solved loaves: a full quadratic in the doubts of an oven and a cubic in the
// first of them, each answer on a scale on which it is nearly straight.
#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "oven/bake.h"

namespace barm::oven {

/// Where a loaf lies among its doubts, in standard deviations.
using Z = std::array<double, lucks>;

inline constexpr double reach_out = 1.8;  ///< standard deviations at which a doubt is solved

// What is laid between the solved loaves: each answer on a scale on which it is nearly straight.
enum LaidAnswer : std::size_t {
  surface_laid,
  loss_laid,
  brown_laid,
  spring_laid,
  kept_laid,
  crust_laid,
  laid_count
};

using Scaled = std::array<double, laid_count>;

inline double logit(double share) {
  const double p = std::clamp(share, 1e-6, 1 - 1e-6);
  return std::log(p / (1 - p));
}

inline double share_of_logit(double x) { return 1 / (1 + std::exp(-x)); }

inline constexpr double hottest_core = 101.2;  // a crumb's water does not let it go higher

class Scale {
 public:
  explicit Scale(double start) : start_(start) {}

  [[nodiscard]] Scaled of(const Minute& minute) const {
    return {minute.surface,
            minute.loss,
            std::log(std::max(1e-9, -std::log(std::max(1e-12, 1 - minute.colour)))),
            minute.spring,
            std::log(std::max(1e-12, minute.alcohol)),
            minute.alcohol_in_crust};
  }

  [[nodiscard]] double core(double x) const {
    return start_ + (hottest_core - start_) * share_of_logit(x);
  }

  [[nodiscard]] double of_core(double celsius) const {
    return logit((celsius - start_) / (hottest_core - start_));
  }

 private:
  double start_;
};

// Of the doubts, all but the last need a loaf of their own; the pump only carries alcohol. The
// first, how a hot crumb passes heat on, bends most.
inline constexpr std::size_t axes = lucks - 1;
inline constexpr std::size_t pairs = axes * (axes - 1) / 2;
inline constexpr std::size_t corners = std::size_t{1} << axes;
inline constexpr double corner = 1.2;  // standard deviations of each doubt where all four meet
inline constexpr double half_way = 1;  // of the first doubt once more
inline constexpr std::size_t designed = 1 + 2 * axes + 2 + corners;

// Where each solved loaf lies: the typical loaf, each doubt's two ends, the first half-way too, and
// every corner of all four.
inline std::array<Z, designed> design() {
  std::array<Z, designed> out{};
  std::size_t at = 1;
  for (std::size_t i = 0; i < axes; ++i) {
    out[at++][i] = -reach_out;
    out[at++][i] = reach_out;
  }
  out[at++][0] = -half_way;
  out[at++][0] = half_way;
  for (std::size_t c = 0; c < corners; ++c, ++at) {
    for (std::size_t i = 0; i < axes; ++i) out[at][i] = (c >> i & 1U) != 0 ? corner : -corner;
  }
  return out;
}

// One answer at one moment, through all of them.
struct Curve {
  double middle = 0;
  std::array<double, lucks> straight{}, bent{};
  std::array<double, pairs> together{};
  double cubed = 0;  // of the first doubt

  void lay(std::size_t axis, double low, double high, double reach) {
    straight[axis] = (high - low) / (2 * reach);
    bent[axis] = (high + low - 2 * middle) / (2 * reach * reach);
  }

  [[nodiscard]] double at(const Z& z) const {
    double y = middle + cubed * z[0] * z[0] * z[0];
    for (std::size_t i = 0; i < lucks; ++i) y += z[i] * (straight[i] + bent[i] * z[i]);
    std::size_t p = 0;
    for (std::size_t i = 0; i < axes; ++i) {
      for (std::size_t j = i + 1; j < axes; ++j) y += together[p++] * z[i] * z[j];
    }
    return y;
  }
};

// The curve nearest to the answers of all solved loaves, by least squares.
[[nodiscard]] Curve laid_through(const std::array<double, designed>& y);

// Of the core between its start and the boil, as logits.
inline constexpr std::array levels = {-9.0, -7.0, -5.5, -4.5, -3.7, -3.0, -2.4, -1.9, -1.4,
                                      -1.0, -0.6, -0.2, 0.2,  0.6,  1.0,  1.4,  1.8,  2.2,
                                      2.6,  3.0,  3.5,  4.0,  4.5,  5.0,  6.0,  7.0,  8.5};

class Between {
 public:
  Between(const std::vector<Baked>& solved, const Scale& scale) : scale_(scale) {
    std::array<double, designed> y{};
    curves_.resize(solved.front().course.size());
    hottest_.assign(curves_.size(), near_the_boil);
    for (std::size_t m = 0; m < curves_.size(); ++m) {
      for (std::size_t d = 0; d < designed; ++d)
        hottest_[m] = std::max(hottest_[m], solved[d].course[m].core);
      std::array<Scaled, designed> scaled{};
      for (std::size_t d = 0; d < designed; ++d) scaled[d] = scale.of(solved[d].course[m]);
      for (std::size_t k = 0; k < laid_count; ++k) {
        for (std::size_t d = 0; d < designed; ++d) y[d] = scaled[d][k];
        curves_[m][k] = laid_through(y);
      }
      const Minute& book = solved.front().course[m];
      curves_[m][kept_laid].lay(axes,
                                std::log(std::max(1e-12, book.alcohol_at_most)),
                                std::log(std::max(1e-12, book.alcohol_at_least)),
                                pump_reach);
    }
    std::array<std::array<double, levels.size()>, designed> passed{};
    for (std::size_t d = 0; d < designed; ++d) passed[d] = ln_times(solved[d].course, scale);
    for (std::size_t k = 0; k < levels.size(); ++k) {
      for (std::size_t d = 0; d < designed; ++d) y[d] = passed[d][k];
      ln_time_[k] = laid_through(y);
    }
  }

  [[nodiscard]] std::size_t moments() const { return curves_.size(); }

  /// The core of a draw at each moment [C]: it passes each level at a time of its own. Near the
  /// boil a core creeps, and none is hotter there than the hottest that was solved.
  [[nodiscard]] std::vector<double> cores(const Z& z, const std::vector<Minute>& course) const {
    std::array<double, levels.size()> at{};
    for (std::size_t k = 0; k < levels.size(); ++k) {
      at[k] = std::exp(ln_time_[k].at(z));
      if (k > 0) at[k] = std::max(at[k], at[k - 1] * (1 + 1e-9));
    }
    std::vector<double> out;
    std::size_t k = 1;
    for (std::size_t m = 0; m < course.size(); ++m) {
      const double now = course[m].seconds;
      while (k + 1 < levels.size() && at[k] < now) ++k;
      const double part = (now - at[k - 1]) / (at[k] - at[k - 1]);
      const double level = levels[k - 1] + part * (levels[k] - levels[k - 1]);
      out.push_back(std::min(scale_.core(level), hottest_[m]));
    }
    return out;
  }

  [[nodiscard]] Scaled at(std::size_t moment, const Z& z) const {
    Scaled out{};
    for (std::size_t k = 0; k < laid_count; ++k) out[k] = curves_[moment][k].at(z);
    return out;
  }

 private:
  // When a solved loaf's core passes each level; beyond its end along its last slope, since the
  // rest of the way to the boil halves again and again.
  static std::array<double, levels.size()> ln_times(const std::vector<Minute>& course,
                                                    const Scale& scale) {
    std::array<double, levels.size()> out{};
    std::size_t m = 1;
    for (std::size_t k = 0; k < levels.size(); ++k) {
      while (m + 1 < course.size() && scale.of_core(course[m].core) < levels[k]) ++m;
      const double before = scale.of_core(course[m - 1].core);
      const double now = scale.of_core(course[m].core);
      const double part = now > before ? (levels[k] - before) / (now - before) : 1;
      const double seconds =
          course[m - 1].seconds + part * (course[m].seconds - course[m - 1].seconds);
      out[k] = std::log(std::max(1.0, seconds));
    }
    return out;
  }

  static constexpr double near_the_boil = 99;  // C

  Scale scale_;
  std::vector<double> hottest_;  // of the solved, at each moment [C]
  std::vector<std::array<Curve, laid_count>> curves_;
  std::array<Curve, levels.size()> ln_time_;
};

}  // namespace barm::oven

#pragma once
// Dormand-Prince 5(4) for numbers that may carry derivatives, with the error held down in the
// derivatives too: a step that is good for the values alone can leave derivatives that are rubbish,
// and nothing would tell. The method and its sources are those of dormand_prince.h.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>

#include "numerics/dormand_prince.h"
#include "numerics/lanes_dormand_prince.h"

namespace barm::numerics {

/// Integrates dy/dt = f(y) from 0 and visits ascending moments on the way; time does not enter f.
///
///   rhs(y, dydt)
///   visit(i, y)     at moments[i], by dense output of 4th order
///
/// False when it does not settle.
template <class T, std::size_t N, class Rhs, class Visit>
bool integrate_to(const Rhs& rhs,
                  std::array<T, N> y,
                  std::span<const double> moments,
                  const Accuracy& accuracy,
                  const Visit& visit) {
  using State = std::array<T, N>;
  std::array<State, 7> k;
  std::size_t next = 0;
  for (; next < moments.size() && moments[next] <= 0; ++next) visit(next, y);
  if (next == moments.size()) return true;
  rhs(y, k[0]);
  const double t_end = moments.back();
  double t = 0;
  double h = std::min({accuracy.first_step, accuracy.longest_step, t_end});
  for (int tries = 0; tries < accuracy.most_steps; ++tries) {
    h = std::min(h, t_end - t);
    State stage;
    for (std::size_t s = 1; s < 7; ++s) {
      for (std::size_t i = 0; i < N; ++i) {
        T sum = k[0][i] * detail::stage_weight[s][0];
        for (std::size_t j = 1; j < s; ++j) {
          if (detail::stage_weight[s][j] != 0) sum += k[j][i] * detail::stage_weight[s][j];
        }
        stage[i] = y[i] + sum * h;
      }
      rhs(stage, k[s]);
    }
    double squares = 0;
    for (std::size_t i = 0; i < N; ++i) {
      T sum = k[0][i] * detail::error_weight[0];
      for (std::size_t j = 2; j < 7; ++j) sum += k[j][i] * detail::error_weight[j];
      const double size = std::max(std::abs(value_of(y[i])), std::abs(value_of(stage[i])));
      const double part = h * largest_part(sum) / (accuracy.absolute + accuracy.relative * size);
      squares += part * part;
    }
    const double error = std::sqrt(squares / static_cast<double>(N));
    if (!std::isfinite(error)) {
      h *= 0.1;
      if (h < 1e-9) return false;
      continue;
    }
    if (error > 1) {
      h /= std::min(5.0, std::pow(error, 0.2) / 0.9);
      continue;
    }
    const bool last = t_end - t - h < 1e-12 * t_end;
    const double end = last ? t_end : t + h;
    for (; next < moments.size() && moments[next] <= end; ++next) {
      const double s = (moments[next] - t) / h;
      State inside;
      for (std::size_t i = 0; i < N; ++i) {
        const T c1 = stage[i] - y[i];
        const T c2 = k[0][i] * h - c1;
        const T c3 = c1 - k[6][i] * h - c2;
        T c4 = k[0][i] * (h * detail::dense_weight[0]);
        for (std::size_t j = 2; j < 7; ++j) c4 += k[j][i] * (h * detail::dense_weight[j]);
        inside[i] = y[i] + (c1 + (c2 + (c3 + c4 * (1 - s)) * s) * (1 - s)) * s;
      }
      visit(next, inside);
    }
    if (last || next == moments.size()) return true;
    t = end;
    y = stage;
    k[0] = k[6];
    h = std::min(h * std::clamp(0.9 / std::pow(std::max(error, 1e-10), 0.2), 0.2, 5.0),
                 accuracy.longest_step);
  }
  return false;
}

}  // namespace barm::numerics

#pragma once
// The Dormand-Prince 5(4) method with dense output, for systems that are not stiff.
//
//   Dormand & Prince, A family of embedded Runge-Kutta formulae, J. Comput. Appl. Math. 6 (1980)
//   19; dense output and step control after Hairer, Nørsett & Wanner, Solving Ordinary Differential
//   Equations I, 2nd ed., II.4-II.6.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace barm::numerics {

/// How exactly to integrate. The error of a step is measured component by component against
/// absolute + relative * |y|, as a root mean square.
struct Accuracy {
  double relative = 1e-7;  ///< a bend in the equations costs ten times it
  double absolute = 1e-10;
  int most_steps = 20000;
  double longest_step = 2.0;  ///< [time unit of the system]
  double first_step = 0.01;   ///< [time unit of the system] tried first; it soon grows or shrinks
};

/// What it took.
struct Statistics {
  int steps = 0;
  int rejected = 0;
  int evaluations = 0;
};

/// One accepted step, with the polynomial that holds inside it (4th order).
template <std::size_t N>
class DenseStep {
 public:
  using State = std::array<double, N>;

  double begin = 0;
  double end = 0;
  State y_begin{};
  State y_end{};
  State slope_begin{};  ///< dy/dt
  State slope_end{};

  /// y(t) inside [begin, end].
  [[nodiscard]] State at(double t) const {
    const double h = end - begin;
    const double s = (t - begin) / h;
    const double r = 1 - s;
    State y;
    for (std::size_t i = 0; i < N; ++i) {
      y[i] = y_begin[i] + s * (c1_[i] + r * (c2_[i] + s * (c3_[i] + r * c4_[i])));
    }
    return y;
  }

  /// Sets the polynomial from the slopes of the step (k1, k3..k7).
  void set(const std::array<State, 7>& k) {
    const double h = end - begin;
    slope_begin = k[0];
    slope_end = k[6];
    for (std::size_t i = 0; i < N; ++i) {
      c1_[i] = y_end[i] - y_begin[i];
      c2_[i] = h * k[0][i] - c1_[i];
      c3_[i] = c1_[i] - h * k[6][i] - c2_[i];
      c4_[i] = h * (d1 * k[0][i] + d3 * k[2][i] + d4 * k[3][i] + d5 * k[4][i] + d6 * k[5][i] +
                    d7 * k[6][i]);
    }
  }

 private:
  static constexpr double d1 = -12715105075.0 / 11282082432.0;
  static constexpr double d3 = 87487479700.0 / 32700410799.0;
  static constexpr double d4 = -10690763975.0 / 1880347072.0;
  static constexpr double d5 = 701980252875.0 / 199316789632.0;
  static constexpr double d6 = -1453857185.0 / 822651844.0;
  static constexpr double d7 = 69997945.0 / 29380423.0;

  State c1_{}, c2_{}, c3_{}, c4_{};
};

/// How an integration ended.
enum class Ending { reached_end, stopped, too_many_steps, not_finite };

/// Integrates dy/dt = f(t, y) from t to t_end, changing t and y in place.
///
///   rhs(t, y, dydt)          State in, State out
///   observe(const DenseStep&) -> bool   called after each accepted step; false stops there, with t
///   and y
///                            left at the end of that step (the observer may look inside it)
template <std::size_t N, class Rhs, class Observe>
Ending integrate(const Rhs& rhs,
                 double& t,
                 std::array<double, N>& y,
                 double t_end,
                 const Accuracy& accuracy,
                 Statistics& statistics,
                 const Observe& observe) {
  using State = std::array<double, N>;
  constexpr double a21 = 1.0 / 5;
  constexpr double a31 = 3.0 / 40, a32 = 9.0 / 40;
  constexpr double a41 = 44.0 / 45, a42 = -56.0 / 15, a43 = 32.0 / 9;
  constexpr double a51 = 19372.0 / 6561, a52 = -25360.0 / 2187, a53 = 64448.0 / 6561,
                   a54 = -212.0 / 729;
  constexpr double a61 = 9017.0 / 3168, a62 = -355.0 / 33, a63 = 46732.0 / 5247, a64 = 49.0 / 176,
                   a65 = -5103.0 / 18656;
  constexpr double b1 = 35.0 / 384, b3 = 500.0 / 1113, b4 = 125.0 / 192, b5 = -2187.0 / 6784,
                   b6 = 11.0 / 84;
  constexpr double e1 = 71.0 / 57600, e3 = -71.0 / 16695, e4 = 71.0 / 1920, e5 = -17253.0 / 339200,
                   e6 = 22.0 / 525, e7 = -1.0 / 40;

  std::array<State, 7> k;
  DenseStep<N> step;
  rhs(t, y, k[0]);
  ++statistics.evaluations;

  double h = std::min(accuracy.first_step, accuracy.longest_step);
  double last_error = 1e-4;
  bool rejected_before = false;
  State next;
  State stage;
  const auto slope_at = [&](double c, State& out) {
    rhs(t + c * h, stage, out);
    ++statistics.evaluations;
  };
  while (t < t_end) {
    if (statistics.steps + statistics.rejected >= accuracy.most_steps)
      return Ending::too_many_steps;
    h = std::min(h, t_end - t);
    for (std::size_t i = 0; i < N; ++i) stage[i] = y[i] + h * (a21 * k[0][i]);
    slope_at(0.2, k[1]);
    for (std::size_t i = 0; i < N; ++i) stage[i] = y[i] + h * (a31 * k[0][i] + a32 * k[1][i]);
    slope_at(0.3, k[2]);
    for (std::size_t i = 0; i < N; ++i)
      stage[i] = y[i] + h * (a41 * k[0][i] + a42 * k[1][i] + a43 * k[2][i]);
    slope_at(0.8, k[3]);
    for (std::size_t i = 0; i < N; ++i)
      stage[i] = y[i] + h * (a51 * k[0][i] + a52 * k[1][i] + a53 * k[2][i] + a54 * k[3][i]);
    slope_at(8.0 / 9, k[4]);
    for (std::size_t i = 0; i < N; ++i)
      stage[i] = y[i] + h * (a61 * k[0][i] + a62 * k[1][i] + a63 * k[2][i] + a64 * k[3][i] +
                             a65 * k[4][i]);
    slope_at(1.0, k[5]);
    for (std::size_t i = 0; i < N; ++i)
      next[i] =
          y[i] + h * (b1 * k[0][i] + b3 * k[2][i] + b4 * k[3][i] + b5 * k[4][i] + b6 * k[5][i]);
    stage = next;
    slope_at(1.0, k[6]);

    double sum = 0;
    for (std::size_t i = 0; i < N; ++i) {
      const double scale =
          accuracy.absolute + accuracy.relative * std::max(std::abs(y[i]), std::abs(next[i]));
      const double error = h *
                           (e1 * k[0][i] + e3 * k[2][i] + e4 * k[3][i] + e5 * k[4][i] +
                            e6 * k[5][i] + e7 * k[6][i]) /
                           scale;
      sum += error * error;
    }
    const double error = std::sqrt(sum / static_cast<double>(N));
    if (!std::isfinite(error)) {
      if (h < 1e-9) return Ending::not_finite;
      h *= 0.1;
      ++statistics.rejected;
      continue;
    }
    // PI control of the step: h <- h 0.9 err^-0.17 err_last^0.04, within 0.2..5 (10 in Hairer's
    // code).
    const double shrink = std::pow(std::max(error, 1e-10), 0.17) / std::pow(last_error, 0.04);
    if (error > 1) {
      h /= std::min(5.0, std::pow(error, 0.2) / 0.9);
      rejected_before = true;
      ++statistics.rejected;
      continue;
    }
    step.begin = t;
    step.end = t + h;
    if (t_end - step.end < 1e-12 * std::abs(t_end)) step.end = t_end;
    step.y_begin = y;
    step.y_end = next;
    step.set(k);
    t = step.end;
    y = next;
    k[0] = k[6];
    ++statistics.steps;
    double growth = std::clamp(0.9 / shrink, 0.2, 5.0);
    if (rejected_before) growth = std::min(growth, 1.0);
    rejected_before = false;
    last_error = std::max(error, 1e-4);
    h = std::min(h * growth, accuracy.longest_step);
    if (!observe(step)) return Ending::stopped;
  }
  return Ending::reached_end;
}

/// Where g(t) changes sign inside a step, by the Illinois variant of false position, to 1e-9 of the
/// step. g_begin and g_end are its values at the ends, of opposite sign.
template <std::size_t N, class Function>
double crossing(const DenseStep<N>& step,
                double from,
                double to,
                double g_from,
                double g_to,
                const Function& g) {
  double a = from;
  double b = to;
  int side = 0;
  for (int i = 0; i < 60 && std::abs(b - a) > 1e-9 * (1 + std::abs(b)); ++i) {
    const double c = (a * g_to - b * g_from) / (g_to - g_from);
    const double gc = g(c, step.at(c));
    if (gc == 0) return c;
    if ((gc < 0) == (g_to < 0)) {
      b = c;
      g_to = gc;
      if (side == 1) g_from /= 2;
      side = 1;
    } else {
      a = c;
      g_from = gc;
      if (side == -1) g_to /= 2;
      side = -1;
    }
  }
  return 0.5 * (a + b);
}

}  // namespace barm::numerics

#pragma once
// Dormand-Prince 5(4) for several runs at once, in lock step: every lane makes one attempt in the
// same instructions, each with its own time, its own step and its own judgement of the error. The
// method, the error norm and the control of the step are those of dormand_prince.h, from the same
// sources.
#include <array>
#include <cmath>
#include <cstddef>

#include "numerics/dormand_prince.h"
#include "numerics/lanes_math.h"

namespace barm::numerics {

namespace detail {

inline constexpr double stage_weight[7][6] = {
    {},
    {1.0 / 5},
    {3.0 / 40, 9.0 / 40},
    {44.0 / 45, -56.0 / 15, 32.0 / 9},
    {19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729},
    {9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656},
    {35.0 / 384, 0.0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84},
};
inline constexpr double error_weight[7] = {
    71.0 / 57600, 0.0, -71.0 / 16695, 71.0 / 1920, -17253.0 / 339200, 22.0 / 525, -1.0 / 40};
inline constexpr double dense_weight[7] = {-12715105075.0 / 11282082432.0,
                                           0.0,
                                           87487479700.0 / 32700410799.0,
                                           -10690763975.0 / 1880347072.0,
                                           701980252875.0 / 199316789632.0,
                                           -1453857185.0 / 822651844.0,
                                           69997945.0 / 29380423.0};

}  // namespace detail

/// One component of one lane inside a step, 4th order:  y(s), s = 0 at its begin and 1 at its end.
struct Quartic {
  double c0 = 0, c1 = 0, c2 = 0, c3 = 0, c4 = 0;

  [[nodiscard]] double at(double s) const {
    const double r = 1 - s;
    return c0 + s * (c1 + r * (c2 + s * (c3 + r * c4)));
  }

  /// dy/ds
  [[nodiscard]] double slope(double s) const {
    const double r = 1 - s;
    return c1 + (r - s) * c2 + s * (2 * r - s) * c3 + 2 * s * r * (r - s) * c4;
  }
};

/// Where f changes sign between 0 and 1, to 1e-12, by bisection sped up by false position; f(0) and
/// f(1) are of opposite sign, or one of them is 0.
template <class Function>
double crossing(const Function& f) {
  double a = 0;
  double b = 1;
  double fa = f(a);
  double fb = f(b);
  int side = 0;
  for (int i = 0; i < 60 && b - a > 1e-12; ++i) {
    const double c = std::isfinite(fa / (fa - fb)) ? a + (b - a) * (fa / (fa - fb)) : 0.5 * (a + b);
    const double fc = f(c);
    if (fc == 0) return c;
    if ((fc < 0) == (fb < 0)) {
      b = c;
      fb = fc;
      if (side == 1) fa /= 2;
      side = 1;
    } else {
      a = c;
      fa = fc;
      if (side == -1) fb /= 2;
      side = -1;
    }
  }
  return 0.5 * (a + b);
}

/// What all lanes have just tried.
template <class P, std::size_t N>
struct LaneStep {
  using State = std::array<P, N>;

  P begin, length;
  State y_begin, y_end;
  std::array<State, 7> k;          ///< slopes; k[0] at the begin, k[6] at the end
  typename P::Condition accepted;  ///< the lanes whose step counts

  [[nodiscard]] Quartic component(std::size_t i, int lane) const {
    const auto slope = [&](std::size_t stage) { return static_cast<double>(k[stage][i][lane]); };
    const auto h = static_cast<double>(length[lane]);
    Quartic q;
    q.c0 = static_cast<double>(y_begin[i][lane]);
    q.c1 = static_cast<double>(y_end[i][lane]) - q.c0;
    q.c2 = h * slope(0) - q.c1;
    q.c3 = q.c1 - h * slope(6) - q.c2;
    for (std::size_t stage = 0; stage < 7; ++stage)
      q.c4 += h * detail::dense_weight[stage] * slope(stage);
    return q;
  }

  [[nodiscard]] double time(double s, int lane) const {
    return static_cast<double>(begin[lane]) + s * static_cast<double>(length[lane]);
  }
};

/// Runs in lock step. Use:
///
///     LockStep<P, N> runs(accuracy);
///     for each lane: runs.load(lane, y0, until);
///     while (runs.busy()) {
///       runs.attempt(rhs);                  // rhs(y, dy) with arrays of N packs; time does not
///       enter … look into runs.step() … const auto [paused, lost] = runs.move_on(); … for a lane
///       that is done: load() the next run, or retire() it …
///     }
///
/// A lane's numbers depend on nothing but what was loaded into it.
template <class P, std::size_t N>
class LockStep {  // NOLINT(clang-analyzer-optin.performance.Padding): in the order of reading
 public:
  using Real = typename P::Real;
  using Condition = typename P::Condition;
  using State = std::array<P, N>;

  struct Pause {
    Condition paused;  ///< at the time given to load() or go_on_until()
    Condition lost;    ///< too many steps, or not finite however short the step
  };

  explicit LockStep(const Accuracy& accuracy) : accuracy_(accuracy) {
    for (State& slope : step_.k) {
      for (P& component : slope) component = P(0.0);
    }
  }

  /// A new run in this lane, from time `begin`.
  BARM_INLINE void load(int lane, const std::array<double, N>& y, double until, double begin = 0) {
    for (std::size_t i = 0; i < N; ++i) step_.y_begin[i].set(lane, y[i]);
    step_.begin.set(lane, begin);
    until_.set(lane, until);
    proposed_.set(lane, accuracy_.first_step);
    log_last_error_.set(lane, log_of_good_error);
    steps_.set(lane, 0);
    was_rejected_.set(lane, false);
    busy_.set(lane, true);
    fresh_ = true;
  }

  /// The run in this lane is over and nothing comes after it.
  BARM_INLINE void retire(int lane) {
    busy_.set(lane, false);
    until_.set(lane, static_cast<double>(step_.begin[lane]));
  }

  /// Goes on after a pause.
  BARM_INLINE void go_on_until(int lane, double until) { until_.set(lane, until); }

  /// Changes one component of the lane's state between steps.
  BARM_INLINE void change(int lane, std::size_t component, double value) {
    step_.y_begin[component].set(lane, value);
    fresh_ = true;
  }

  /// Takes back the step just accepted in this lane and tries `share` of it, 0 < share < 1; the
  /// steps after that are as long as they would have been.
  BARM_INLINE void shorten(int lane, double share) {
    step_.accepted.set(lane, false);
    at_most_.set(lane, share * static_cast<double>(step_.length[lane]));
  }

  [[nodiscard]] BARM_INLINE bool busy() const { return any(busy_); }

  [[nodiscard]] BARM_INLINE const LaneStep<P, N>& step() const { return step_; }

  /// Attempts a step in every lane that is busy; the others stand still.
  template <class Rhs>
  BARM_INLINE void attempt(const Rhs& rhs) {
    const P left = until_ - step_.begin;
    const P wished = smaller(proposed_, at_most_);
    const Condition to_the_end = wished >= left;
    step_.length = select(to_the_end, left, wished);
    at_most_ = P(no_limit);
    end_ = select(to_the_end, until_, P(step_.begin + step_.length));
    // One loop, so that the right-hand side stands in the program once. Stage 0 is the last stage
    // of the step before (its slopes come out the same to the last bit), except in lanes that were
    // loaded since.
    for (std::size_t stage = fresh_ ? 0 : 1; stage < 7; ++stage) {
      P weight[6];
      for (std::size_t j = 0; j < stage; ++j)
        weight[j] = step_.length * detail::stage_weight[stage][j];
      for (std::size_t i = 0; i < N; ++i) {
        P y = step_.y_begin[i];
        for (std::size_t j = 0; j < stage; ++j) y = y + weight[j] * step_.k[j][i];
        step_.y_end[i] = y;
      }
      rhs(step_.y_end, step_.k[stage]);
    }
    fresh_ = false;
    judge();
  }

  /// Takes the lanes that were accepted to the end of their step and chooses the next step of every
  /// lane.
  BARM_INLINE Pause move_on() {
    const Condition accepted = step_.accepted;
    for (std::size_t i = 0; i < N; ++i) {
      step_.y_begin[i] = select(accepted, step_.y_end[i], step_.y_begin[i]);
      step_.k[0][i] = select(accepted, step_.k[6][i], step_.k[0][i]);
    }
    step_.begin = select(accepted, end_, step_.begin);
    choose_next_step();
    steps_ = steps_ + select(busy_, P(1.0), P(0.0));
    const Condition lost =
        ((steps_ >= P(accuracy_.most_steps)) | (proposed_ < P(shortest_step))) & busy_;
    return {accepted & (step_.begin >= until_), lost};
  }

 private:
  static constexpr double log_of_good_error = -9.210340371976182;  // ln 1e-4
  static constexpr double shortest_step = 1e-9;
  static constexpr double no_limit = 1e30;

  // The error of a step, as a root mean square of components against absolute + relative |y|.
  BARM_INLINE void judge() {
    P weight[7];
    for (std::size_t j = 0; j < 7; ++j) weight[j] = step_.length * detail::error_weight[j];
    P sum(0.0);
    for (std::size_t i = 0; i < N; ++i) {
      P error = weight[0] * step_.k[0][i];
      for (std::size_t j = 2; j < 7; ++j) error = error + weight[j] * step_.k[j][i];
      const P size = larger(abs(step_.y_begin[i]), abs(step_.y_end[i]));
      const P part = error / (size * accuracy_.relative + accuracy_.absolute);
      sum = sum + part * part;
    }
    mean_square_ = sum * (1.0 / static_cast<double>(N));
    step_.accepted = (mean_square_ <= P(1.0)) & busy_;
  }

  // PI control:  h <- h 0.9 err^-0.17 err_last^0.04, within 0.2..5; not longer just after a
  // rejection.
  BARM_INLINE void choose_next_step() {
    const P log_error = log(larger(P(1e-20), mean_square_)) * 0.5;
    const P best =
        exp(select(
            step_.accepted, P(log_last_error_ * 0.04 - log_error * 0.17), P(log_error * -0.2))) *
        0.9;
    P growth = smaller(P(5.0), larger(P(0.2), best));
    growth = select(was_rejected_, smaller(P(1.0), growth), growth);
    growth = select(mean_square_ < P(1e30), growth, P(0.1));
    const P next = smaller(P(accuracy_.longest_step), step_.length * growth);
    const Condition cut_short = step_.accepted & (step_.length < proposed_);
    const Condition shortened = at_most_ < P(no_limit);
    const P wanted = select(cut_short, larger(next, proposed_), next);
    proposed_ = select(busy_ & (!shortened), wanted, proposed_);
    log_last_error_ =
        select(step_.accepted, larger(P(log_of_good_error), log_error), log_last_error_);
    was_rejected_ = busy_ & (!step_.accepted) & (!shortened);
  }

  Accuracy accuracy_;
  LaneStep<P, N> step_;
  P until_, end_, proposed_, log_last_error_, mean_square_, steps_;
  P at_most_ = P(no_limit);
  Condition busy_, was_rejected_;
  bool fresh_ = true;
};

}  // namespace barm::numerics

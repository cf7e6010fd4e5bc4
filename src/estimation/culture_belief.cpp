// What is believed of a culture after its batches: it wanders slowly, and they scatter about it.
#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>

#include "estimation/culture.h"

namespace barm::estimation {

namespace {

using kinetics::Parameter;
// Sizes are known, but matrices of fixed size take a minute to compile and are no faster here.
using Eigen::MatrixXd;
using Eigen::VectorXd;

// What is remembered: the culture's parameters, and last the slope of ln(lag) with the levain's
// age.
constexpr int slope = static_cast<int>(culture_size);
constexpr int remembered = slope + 1;

// How batches of one culture scatter, as a share of what cultures differ by, in sd. The starter's
// age and feeding decide most of the lag, the flour of the day most of the gas held; how much
// alcohol a yeast bears is its own. Guesses until batches tell.
double share_between(Parameter parameter) {
  switch (parameter) {
    case Parameter::lag_scale:
      return 0.8;
    case Parameter::rise_limit:
      return 0.6;
    case Parameter::wild_growth:
    case Parameter::bacteria_growth:
    case Parameter::bacteria_upkeep:
      return 0.5;
    default:
      return 0.25;
  }
}

constexpr double drift_a_day = 0.012;  // of the published sd, per root of a day: 0.23 in a year
constexpr std::size_t enough_batches = 5;
// What the scatter may be of what is supposed, tried when there are enough batches.
constexpr double scatters[] = {0.4, 0.57, 0.8, 1.13, 1.6, 2.26};
constexpr double doubt_of_scatter = 0.5;  // in ln
// How much more or less than the published figures the lag may grow with each hour of the levain's
// age: sd of ln(lag) per hour. A guess, tight on purpose: half a day moves the lag by a factor
// of 1.6 at most likely, and a few batches that scatter do not pass for a slope.
constexpr double doubt_of_slope = 0.04;

int index(std::size_t i) { return static_cast<int>(i); }

// What a bakery starts from, in the culture's parameters: mean, covariance, sd.
struct Start {
  VectorXd mean = VectorXd::Zero(slope), sd = VectorXd::Zero(slope);
  MatrixXd covariance = MatrixXd::Zero(slope, slope);
};

Start start_of() {
  const Belief day_one = day_one_belief();
  Start start;
  for (std::size_t i = 0; i < culture_size; ++i) {
    const auto row = static_cast<std::size_t>(culture_parameters[i]);
    start.mean(index(i)) = day_one.mean[row];
    for (std::size_t j = 0; j < culture_size; ++j) {
      const auto column = static_cast<std::size_t>(culture_parameters[j]);
      start.covariance(index(i), index(j)) =
          day_one.covariance[row * kinetics::parameter_count + column];
    }
    start.sd(index(i)) = std::sqrt(start.covariance(index(i), index(i)));
  }
  return start;
}

// Day one's covariance parted into what cultures differ by and what batches of one culture do:
//     C = L L',   Omega = L diag(share^2) L',   the culture's own  L diag(1 - share^2) L'
struct Parted {
  MatrixXd own, between;
};

Parted parted(const Start& start, double scatter) {
  VectorXd share(slope);
  for (std::size_t i = 0; i < culture_size; ++i)
    share(index(i)) = std::min(0.95, scatter * share_between(culture_parameters[i]));
  const MatrixXd lower = start.covariance.llt().matrixL();
  const VectorXd squared = share.array().square().matrix();
  const VectorXd rest = (1 - share.array().square()).matrix();
  return {lower * rest.asDiagonal() * lower.transpose(),
          lower * squared.asDiagonal() * lower.transpose()};
}

VectorXd push_of(const BatchLesson& lesson) {
  return Eigen::Map<const VectorXd>(lesson.push.data(), slope);
}

MatrixXd sharpness_of(const BatchLesson& lesson) {
  return Eigen::Map<const MatrixXd>(lesson.sharpness.data(), slope, slope);
}

struct State {
  VectorXd mean = VectorXd::Zero(remembered);
  MatrixXd covariance = MatrixXd::Zero(remembered, remembered);
  double ln_evidence = 0;
};

int lag_place() {
  return static_cast<int>(
      std::find(culture_parameters.begin(), culture_parameters.end(), Parameter::lag_scale) -
      culture_parameters.begin());
}

// What a batch with a levain of that age shows of what is remembered:
//     x = mu,   but ln(lag) = mu_lag + slope (age - middle age)
MatrixXd view(double past_the_middle) {
  MatrixXd out = MatrixXd::Zero(slope, remembered);
  out.leftCols(slope).setIdentity();
  out(lag_place(), slope) = past_the_middle;
  return out;
}

// The age about which the lag is told: that of the middle of the batches. So the slope says nothing
// while all levains are alike.
double middle_age(const std::vector<BatchLesson>& lessons) {
  double sum = 0;
  int count = 0;
  for (const BatchLesson& lesson : lessons) {
    if (!lesson.levain_age_h) continue;
    sum += *lesson.levain_age_h;
    ++count;
  }
  return count > 0 ? sum / count : 0;
}

bool has_ages(const std::vector<BatchLesson>& lessons) {
  return std::any_of(
      lessons.begin(), lessons.end(), [](const auto& one) { return one.levain_age_h.has_value(); });
}

// What a batch says of the culture it came from: the scatter between batches blunts it.
//     sharpness (1 + Omega sharpness)^-1,  (1 + sharpness Omega)^-1 push
void take_in(State& state, const BatchLesson& lesson, const MatrixXd& omega, const MatrixXd& seen) {
  const MatrixXd one = MatrixXd::Identity(slope, slope);
  const MatrixXd sharp = sharpness_of(lesson);
  const MatrixXd blunt = (one + sharp * omega).inverse();
  const MatrixXd p = blunt * sharp;
  const VectorXd h = blunt * push_of(lesson);
  // The batch's own evidence under this scatter, its part that the culture's state does not change:
  // of  int exp(h'x - x'Px/2) N(x; m, C + Omega) dx.
  const VectorXd middle = seen * state.mean;
  const MatrixXd spread = seen * state.covariance * seen.transpose() + omega;
  const MatrixXd gain = (one + spread * sharp).inverse();
  const VectorXd pulled = gain * (middle + spread * push_of(lesson));
  state.ln_evidence += 0.5 * std::log(std::max(1e-300, gain.determinant())) +
                       0.5 * push_of(lesson).dot(pulled + gain * middle) -
                       0.5 * middle.dot(sharp * (gain * middle));
  const MatrixXd keep =
      (MatrixXd::Identity(remembered, remembered) + state.covariance * seen.transpose() * p * seen)
          .inverse();
  state.mean = keep * (state.mean + state.covariance * seen.transpose() * h).eval();
  state.covariance = (keep * state.covariance).eval();
  state.covariance = 0.5 * (state.covariance + state.covariance.transpose()).eval();
}

State run(const std::vector<BatchLesson>& lessons, double scatter) {
  const Start start = start_of();
  const Parted parts = parted(start, scatter);
  const double middle = middle_age(lessons);
  State state;
  state.mean.head(slope) = start.mean;
  state.covariance.topLeftCorner(slope, slope) = parts.own;
  state.covariance(slope, slope) = doubt_of_slope * doubt_of_slope;
  double day = lessons.empty() ? 0 : lessons.front().day;
  for (const BatchLesson& lesson : lessons) {
    const VectorXd wander = drift_a_day * start.sd * std::sqrt(std::max(0.0, lesson.day - day));
    state.covariance.topLeftCorner(slope, slope) +=
        MatrixXd(wander.array().square().matrix().asDiagonal());
    day = lesson.day;
    take_in(state, lesson, parts.between, view(lesson.levain_age_h.value_or(middle) - middle));
  }
  return state;
}

// In order of their days, so that the order of learning plays no part. A batch without a day is
// taken to be as old as the first that has one: no time is known to have passed between them.
std::vector<BatchLesson> in_order(std::vector<BatchLesson> lessons) {
  double first = std::numeric_limits<double>::infinity();
  for (const BatchLesson& lesson : lessons) {
    if (lesson.day > 0) first = std::min(first, lesson.day);
  }
  for (BatchLesson& lesson : lessons) {
    if (lesson.day <= 0) lesson.day = std::isfinite(first) ? first : 0;
  }
  std::sort(lessons.begin(), lessons.end(), [](const BatchLesson& a, const BatchLesson& b) {
    return a.day != b.day ? a.day < b.day : a.batch < b.batch;
  });
  return lessons;
}

double likely_scatter(const std::vector<BatchLesson>& lessons) {
  if (lessons.size() < enough_batches) return 1;
  double sum = 0;
  double mean = 0;
  double most = -1e300;
  std::vector<double> ln;
  for (const double scatter : scatters) {
    ln.push_back(run(lessons, scatter).ln_evidence -
                 0.5 * std::pow(std::log(scatter) / doubt_of_scatter, 2));
    most = std::max(most, ln.back());
  }
  for (std::size_t i = 0; i < ln.size(); ++i) {
    const double w = std::exp(ln[i] - most);
    sum += w;
    mean += w * std::log(scatters[i]);
  }
  return std::exp(mean / sum);
}

// A new law of the culture's parameters, and what follows for all that is tied to them:
//     m_b + G (m_a' - m_a),  C_bb - G (C_aa - C_aa') G',  C_ba' = G C_aa',  G = C_ba C_aa^-1
Belief carried(const Belief& day_one, const VectorXd& mean, const MatrixXd& covariance) {
  const int n = index(kinetics::parameter_count);
  using Rows = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  const Eigen::Map<const Rows> all(day_one.covariance.data(), n, n);
  MatrixXd pick = MatrixXd::Zero(index(culture_size), n);
  for (std::size_t i = 0; i < culture_size; ++i)
    pick(index(i), static_cast<int>(culture_parameters[i])) = 1;
  const Start start = start_of();
  const MatrixXd gain = all * pick.transpose() * start.covariance.inverse();
  const VectorXd moved =
      Eigen::Map<const VectorXd>(day_one.mean.data(), n) + gain * (mean - start.mean);
  const Rows spread = all - gain * (start.covariance - covariance) * gain.transpose();
  return {{moved.data(), moved.data() + n}, {spread.data(), spread.data() + spread.size()}};
}

}  // namespace

CultureBelief belief_of(const Culture& culture, double day, const std::optional<Time>& levain_age) {
  const std::vector<BatchLesson> lessons = in_order(culture.batches);
  const double scatter = likely_scatter(lessons);
  const State state = run(lessons, scatter);
  const Start start = start_of();
  const Parted parts = parted(start, scatter);
  CultureBelief out;
  out.middle_age = middle_age(lessons) * hour;
  // A levain that is as old as they usually are, where it is not said or nothing is known of age.
  const bool older = levain_age && has_ages(lessons);
  const MatrixXd seen = view(older ? (*levain_age - out.middle_age).in(hour) : 0);
  // As the batches of one culture scatter, so their numbers go together as those of cultures do.
  MatrixXd next = seen * state.covariance * seen.transpose() + parts.between;
  if (!lessons.empty() && day > lessons.back().day) {
    const VectorXd wander = drift_a_day * start.sd * std::sqrt(day - lessons.back().day);
    next += MatrixXd(wander.array().square().matrix().asDiagonal());
  }
  out.next = carried(day_one_belief(), seen * state.mean, next);
  for (std::size_t i = 0; i < culture_size; ++i) {
    out.mean[i] = state.mean(index(i));
    out.sd[i] = std::sqrt(state.covariance(index(i), index(i)));
    out.before[i] = start.sd(index(i));
    out.between[i] = std::sqrt(parts.between(index(i), index(i)));
  }
  out.slope = state.mean(slope);
  out.slope_sd = std::sqrt(state.covariance(slope, slope));
  out.slope_before = doubt_of_slope;
  out.slope_with_lag = state.covariance(slope, lag_place());
  return out;
}

Belief next_batch(const Culture& culture, double day, const std::optional<Time>& levain_age) {
  return belief_of(culture, day, levain_age).next;
}

}  // namespace barm::estimation

#include "estimation/internal/proposal.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "numerics/ln_gamma.h"
#include "numerics/symmetric.h"

namespace barm::estimation::internal {

namespace {

constexpr double spoken_from = 0.2;  // of the prior's curvature, 1
constexpr int tail = 7;              // degrees of freedom
constexpr double wider = 1.1;        // sd over Laplace's
constexpr int steps_to_middle = 2;
constexpr double longest_step = 3;   // prior sd
constexpr double tells_apart = 2.5;  // sd of what was estimated

using Rows = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

Eigen::Index index(std::size_t n) { return static_cast<Eigen::Index>(n); }

Eigen::Map<const Eigen::MatrixXd> square(const std::vector<double>& values, std::size_t n) {
  return {values.data(), index(n), index(n)};
}

Eigen::Map<Eigen::VectorXd> column(std::span<double> values) {
  return {values.data(), index(values.size())};
}

Eigen::Map<const Eigen::VectorXd> column(std::span<const double> values) {
  return {values.data(), index(values.size())};
}

std::vector<double> kept(const Rows& m) { return {m.data(), m.data() + m.size()}; }

double chi_square(numerics::Random& random, int degrees) {
  double sum = 0;
  for (int i = 0; i < degrees; ++i) {
    const double n = random.normal();
    sum += n * n;
  }
  return sum;
}

}  // namespace

Proposal::Proposal(const Posterior& posterior, const Best& best)
    : posterior_(posterior), dimension_(best.z.size()), data_(best.residual.size()) {
  const Eigen::Map<const Rows> jacobian(best.jacobian.data(), index(data_), index(dimension_));
  const Eigen::Map<const Eigen::VectorXd> weight(best.weight.data(), index(data_));
  const Eigen::MatrixXd curvature = jacobian.transpose() * weight.asDiagonal() * jacobian;
  curvature_ = kept(curvature);
  const numerics::Axes axes = numerics::axes_of(curvature);
  spoken_of_ = static_cast<std::size_t>((axes.lengths.array() > spoken_from).count());
  const Eigen::MatrixXd directions =
      numerics::filled_up(axes.directions.rightCols(index(spoken_of_)).rowwise().reverse());
  directions_.assign(directions.data(), directions.data() + directions.size());
  const Eigen::VectorXd along = (directions.transpose() * curvature * directions).diagonal();
  const Eigen::VectorXd lengths = (1 + along.array().max(0)).rsqrt();
  for (std::size_t i = spoken_of_; i < dimension_; ++i) rest_.push_back(lengths(index(i)));
  best_ = best.z;
  turn(best_);
  const Eigen::MatrixXd a = jacobian * directions.leftCols(index(spoken_of_));
  const Eigen::MatrixXd sharp = a.transpose() * weight.asDiagonal() * a +
                                Eigen::MatrixXd::Identity(index(spoken_of_), index(spoken_of_));
  const Eigen::MatrixXd ease = sharp.inverse();
  ease_ = kept(ease);
  gain_ = kept(ease * a.transpose() * weight.asDiagonal());
  off_.assign(spoken_of_, 0.0);
  shape_.assign(spoken_of_ * spoken_of_, 0.0);
  for (std::size_t i = 0; i < spoken_of_; ++i) {
    shape_[i * spoken_of_ + i] = wider * lengths(index(i));
    ln_determinant_ += std::log(shape_[i * spoken_of_ + i]);
  }
}

void Proposal::turn(std::span<double> z) const {
  const Eigen::VectorXd turned = square(directions_, dimension_).transpose() * column(z);
  column(z) = turned;
}

void Proposal::turn_back(std::span<double> z) const {
  const Eigen::VectorXd turned = square(directions_, dimension_) * column(z);
  column(z) = turned;
}

// m(b) of every row; the rows hold b, their a is not looked at.
Result<std::vector<double>> Proposal::middles(const std::vector<double>& turned) const {
  const std::size_t count = turned.size() / dimension_;
  const std::size_t r = spoken_of_;
  const Eigen::Map<const Rows> gain(gain_.data(), index(r), index(data_));
  const Eigen::Map<const Rows> ease(ease_.data(), index(r), index(r));
  std::vector<double> middle;
  for (std::size_t i = 0; i < count; ++i)
    middle.insert(middle.end(), best_.begin(), best_.begin() + static_cast<std::ptrdiff_t>(r));
  for (int step = 0; step < steps_to_middle && r > 0; ++step) {
    std::vector<double> points = turned;
    for (std::size_t i = 0; i < count; ++i) {
      const std::span<double> row = std::span(points).subspan(i * dimension_, dimension_);
      std::copy_n(middle.begin() + static_cast<std::ptrdiff_t>(i * r), r, row.begin());
      turn_back(row);
    }
    std::vector<double> residuals;
    const auto ln = posterior_.log_likelihood(points, residuals, forecast::Precision::single);
    if (!ln) return failure(ln);
    for (std::size_t i = 0; i < count; ++i) {
      const std::span<double> m = std::span(middle).subspan(i * r, r);
      const auto residual = column(std::span<const double>(residuals).subspan(i * data_, data_));
      Eigen::VectorXd by = gain * residual + ease * column(m);
      if (!by.allFinite()) continue;
      const double longest = by.lpNorm<Eigen::Infinity>();
      if (longest > longest_step) by *= longest_step / longest;
      column(m) -= by;
    }
  }
  return middle;
}

Result<std::vector<double>> Proposal::draw(std::size_t count,
                                           std::uint64_t seed,
                                           std::uint64_t stream,
                                           std::vector<double>& z) const {
  const std::size_t d = dimension_;
  const std::size_t r = spoken_of_;
  std::vector<double> ln_ratio(count, 0.0);
  z.assign(count * d, 0.0);
  for (std::size_t i = 0; i < count; ++i) {
    numerics::Random random(seed, (stream << 32) + i);
    for (std::size_t j = r; j < d; ++j) {
      const double n = random.normal();
      double& b = z[i * d + j];
      b = best_[j] + n * rest_[j - r];
      ln_ratio[i] += 0.5 * n * n + std::log(rest_[j - r]) - 0.5 * b * b;
    }
  }
  const auto middle = middles(z);
  if (!middle) return failure(middle);
  last_steps_.assign(count * r, 0.0);
  const auto dims = static_cast<double>(r);
  const double nu = tail;
  // ln of the t density, less the constants (2 pi)^(r/2) that prior and normal share.
  const double constant = numerics::ln_gamma((nu + dims) / 2) - numerics::ln_gamma(nu / 2) -
                          dims / 2 * std::log(nu / 2) - ln_determinant_;
  for (std::size_t i = 0; i < count; ++i) {
    numerics::Random random(seed, ((stream + (1U << 20)) << 32) + i);
    const double stretch = std::sqrt(nu / chi_square(random, tail));
    std::vector<double> u(r);
    double squares = 0;
    for (double& x : u) {
      x = random.normal() * stretch;
      squares += x * x;
    }
    for (std::size_t k = 0; k < r; ++k) {
      double step = off_[k];
      for (std::size_t j = 0; j <= k; ++j) step += shape_[k * r + j] * u[j];
      last_steps_[i * r + k] = step;
      double& a = z[i * d + k];
      a = (*middle)[i * r + k] + step;
      ln_ratio[i] -= 0.5 * a * a;
    }
    ln_ratio[i] -= constant - (nu + dims) / 2 * std::log1p(squares / nu);
    turn_back(std::span(z).subspan(i * d, d));
  }
  return ln_ratio;
}

// Weights flattened until they are worth so many draws.
std::vector<double> flattened(std::span<const double> weight, double wanted) {
  double power = 1;
  std::vector<double> flat(weight.size());
  for (int i = 0; i < 30; ++i) {
    double sum = 0;
    double squares = 0;
    for (std::size_t k = 0; k < weight.size(); ++k) {
      flat[k] = weight[k] > 0 ? std::pow(weight[k], power) : 0;
      sum += flat[k];
    }
    for (double& w : flat) {
      w /= sum;
      squares += w * w;
    }
    if (1 / squares >= wanted) break;
    power *= 0.8;
  }
  return flat;
}

void Proposal::learn(std::span<const double> z, std::span<const double> weight) {
  const std::size_t r = spoken_of_;
  const double wanted =
      std::min(0.3 * static_cast<double>(weight.size()), 20.0 * static_cast<double>(r + 1));
  const std::vector<double> flat = flattened(weight, wanted);
  if (r > 0) learn_steps(flat);
  learn_rest(z, flat);
}

// The law of a - m(b).
void Proposal::learn_steps(const std::vector<double>& flat) {
  const std::size_t r = spoken_of_;
  Eigen::VectorXd mean = Eigen::VectorXd::Zero(index(r));
  for (std::size_t k = 0; k < flat.size(); ++k)
    mean += flat[k] * column(std::span(last_steps_).subspan(k * r, r));
  Eigen::MatrixXd scatter = 1e-6 * Eigen::MatrixXd::Identity(index(r), index(r));
  for (std::size_t k = 0; k < flat.size(); ++k) {
    const Eigen::VectorXd off = column(std::span(last_steps_).subspan(k * r, r)) - mean;
    scatter += flat[k] * off * off.transpose();
  }
  const Eigen::MatrixXd lower = Eigen::MatrixXd((scatter * (wider * wider)).llt().matrixL());
  ln_determinant_ = 0;
  for (std::size_t i = 0; i < r; ++i) {
    off_[i] = mean(index(i));
    for (std::size_t j = 0; j <= i; ++j) shape_[i * r + j] = lower(index(i), index(j));
    ln_determinant_ += std::log(shape_[i * r + i]);
  }
}

// The middle and the width of every b, where the draws tell them apart from what they were.
void Proposal::learn_rest(std::span<const double> z, const std::vector<double>& flat) {
  const std::size_t d = dimension_;
  double squares = 0;
  for (const double w : flat) squares += w * w;
  const double error = std::sqrt(squares);  // of a mean, in sd
  std::vector<double> turned(z.begin(), z.end());
  for (std::size_t k = 0; k < flat.size(); ++k) turn(std::span(turned).subspan(k * d, d));
  for (std::size_t j = spoken_of_; j < d; ++j) {
    double mean = 0;
    double square = 0;
    for (std::size_t k = 0; k < flat.size(); ++k) {
      const double b = turned[k * d + j];
      mean += flat[k] * b;
      square += flat[k] * b * b;
    }
    double& sd = rest_[j - spoken_of_];
    const double found = std::sqrt(std::max(1e-6, square - mean * mean));
    if (std::abs(mean - best_[j]) > tells_apart * error * sd) best_[j] = mean;
    if (std::abs(found / sd - 1) > tells_apart * error) sd = std::clamp(found, 0.3 * sd, 1.5 * sd);
  }
}

}  // namespace barm::estimation::internal

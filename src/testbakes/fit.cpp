#include "testbakes/internal/fit.h"

#include <algorithm>
#include <cmath>

#include "generated/constants.h"
#include "numerics/random.h"
#include "units/units.h"

namespace barm::testbakes::internal {

namespace {

constexpr double suspect_times = 100;

constexpr std::size_t scouts = 64;  // draws of the prior; ours
constexpr std::size_t sent = 2;     // of them, the nearest

std::vector<double> plain(const Eigen::VectorXd& v) { return {v.data(), v.data() + v.size()}; }

Eigen::VectorXd vector_of(const std::vector<double>& v) {
  return Eigen::Map<const Eigen::VectorXd>(v.data(), static_cast<Eigen::Index>(v.size()));
}

}  // namespace

// C_ij = s^2 (d_ij + R_i R_j) + shape^2 exp(-|t_i - t_j| / hours), with s = 1 mm over the height at
// the first mark, which is itself read as inexactly and shared by all looks at a jar.
Errors::Errors(const std::vector<Watched>& jars, double shape, const std::vector<bool>& suspect) {
  const double memory = constants::scatter::shape_hours.value.in(hour);
  for (const Watched& jar : jars) {
    const auto n = static_cast<Eigen::Index>(jar.looks.size());
    const double s = constants::scatter::reading.value / jar.start;
    Eigen::MatrixXd c(n, n);
    for (Eigen::Index i = 0; i < n; ++i) {
      const Look& a = jar.looks[static_cast<std::size_t>(i)];
      for (Eigen::Index j = 0; j < n; ++j) {
        const Look& b = jar.looks[static_cast<std::size_t>(j)];
        const double alike = std::exp(-std::abs(a.hours - b.hours) / memory);
        c(i, j) = s * s * a.ratio * b.ratio + shape * shape * alike;
      }
      const std::size_t look = y_.size();
      const bool doubted = look < suspect.size() && suspect[look];
      c(i, i) += s * s * (doubted ? suspect_times * suspect_times : 1);
      y_.push_back(a.ratio);
      sd_.push_back(std::sqrt(c(i, i)));
    }
    const Eigen::LLT<Eigen::MatrixXd> llt(c);
    factor_.emplace_back(llt.matrixL());
    log_volume_ += factor_.back().diagonal().array().log().sum();
  }
}

Eigen::VectorXd Errors::whitened(const std::vector<double>& predicted) const {
  Eigen::VectorXd out(static_cast<Eigen::Index>(y_.size()));
  for (Eigen::Index i = 0; i < out.size(); ++i)
    out(i) = y_[static_cast<std::size_t>(i)] - predicted[static_cast<std::size_t>(i)];
  Eigen::Index at = 0;
  for (const auto& factor : factor_) {
    auto block = out.segment(at, factor.rows());
    factor.triangularView<Eigen::Lower>().solveInPlace(block);
    at += factor.rows();
  }
  return out;
}

Eigen::MatrixXd Errors::whitened_slopes(const std::vector<double>& slopes,
                                        std::size_t columns) const {
  using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  Eigen::MatrixXd out = Eigen::Map<const RowMajor>(
      slopes.data(), static_cast<Eigen::Index>(y_.size()), static_cast<Eigen::Index>(columns));
  Eigen::Index at = 0;
  for (const auto& factor : factor_) {
    auto block = out.middleRows(at, factor.rows());
    factor.triangularView<Eigen::Lower>().solveInPlace(block);
    at += factor.rows();
  }
  return out;
}

namespace {

Result<Fit> climbed(const JointModel& model,
                    Hypothesis acting,
                    const Errors& errors,
                    const Eigen::VectorXd& start) {
  constexpr int most_steps = 30;
  constexpr double farthest = 5;  // standard deviations of the prior
  constexpr double settled = 1e-3;
  const std::size_t n = model.unknowns();
  const auto unit = Eigen::MatrixXd::Identity(start.size(), start.size());
  Fit out;
  out.z = start;
  double damping = 1e-2;
  auto slopes = model.slopes(acting, plain(out.z));
  if (!slopes) return failure(slopes);
  Eigen::VectorXd r = errors.whitened(slopes->at);
  Eigen::MatrixXd j = errors.whitened_slopes(slopes->by, n);
  double cost = r.squaredNorm() + out.z.squaredNorm();
  for (int k = 0; k < most_steps; ++k) {
    const Eigen::MatrixXd hessian = j.transpose() * j + unit;
    const Eigen::VectorXd gradient = j.transpose() * r - out.z;
    Eigen::MatrixXd damped = hessian;
    damped.diagonal() *= 1 + damping;
    Eigen::VectorXd next = out.z + damped.llt().solve(gradient);
    next = next.cwiseMax(-farthest).cwiseMin(farthest);
    const auto tried = model.predict(acting, plain(next));
    if (!tried) return failure(tried);
    const Eigen::VectorXd tried_r = errors.whitened(*tried);
    const double tried_cost = tried_r.squaredNorm() + next.squaredNorm();
    if (!(tried_cost < cost)) {
      damping *= 8;
      if (damping > 1e6) break;
      continue;
    }
    const double gained = cost - tried_cost;
    out.z = next;
    cost = tried_cost;
    damping = std::max(1e-6, damping / 6);
    slopes = model.slopes(acting, plain(out.z));
    if (!slopes) return failure(slopes);
    r = errors.whitened(slopes->at);
    j = errors.whitened_slopes(slopes->by, n);
    if (gained < settled) break;
  }
  const Eigen::LLT<Eigen::MatrixXd> llt(j.transpose() * j + unit);
  out.covariance = llt.solve(Eigen::MatrixXd(unit));
  const double log_determinant = 2 * Eigen::MatrixXd(llt.matrixL()).diagonal().array().log().sum();
  out.misfit = cost;
  out.log_evidence = -0.5 * cost - 0.5 * log_determinant - errors.log_volume();
  out.predicted = slopes->at;
  return out;
}

/// The draws of the prior that miss least, acting so: where to begin anew.
Result<std::vector<Eigen::VectorXd>> nearest_draws(const JointModel& model,
                                                   Hypothesis acting,
                                                   const Errors& errors) {
  numerics::Random random(1, 0);
  std::vector<std::vector<double>> z(scouts, std::vector<double>(model.unknowns()));
  for (auto& one : z)
    for (double& x : one) x = random.normal();
  const auto predicted = model.predict(acting, z);
  if (!predicted) return failure(predicted);
  const auto looks = static_cast<std::ptrdiff_t>(errors.looks().size());
  std::vector<std::pair<double, std::size_t>> misfit;
  for (std::size_t i = 0; i < scouts; ++i) {
    const auto at = predicted->begin() + static_cast<std::ptrdiff_t>(i) * looks;
    misfit.emplace_back(errors.whitened({at, at + looks}).squaredNorm(), i);
  }
  std::ranges::sort(misfit);
  std::vector<Eigen::VectorXd> out;
  for (std::size_t k = 0; k < sent; ++k) out.push_back(vector_of(z[misfit[k].second]));
  return out;
}

/// A model that holds misfits by about the number of looks: chi^2, two standard deviations up.
bool fits(const Fit& fit) {
  const auto looks = static_cast<double>(fit.predicted.size());
  return fit.misfit < looks + 2 * std::sqrt(2 * looks);
}

}  // namespace

Result<Fit> fit(const JointModel& model,
                Hypothesis acting,
                const Errors& errors,
                const Eigen::VectorXd& start) {
  auto best = climbed(model, acting, errors, start);
  // A dough at its limit tells nothing of its pace: from there no slope leads back.
  if (!best || fits(*best)) return best;
  const auto others = nearest_draws(model, acting, errors);
  if (!others) return failure(others);
  for (const Eigen::VectorXd& other : *others) {
    auto one = climbed(model, acting, errors, other);
    if (!one) return failure(one);
    if (one->misfit < best->misfit) best = std::move(one);
  }
  return best;
}

}  // namespace barm::testbakes::internal

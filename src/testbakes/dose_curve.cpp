#include "testbakes/dose_curve.h"

#include <Eigen/Dense>
#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <optional>
#include <set>

namespace barm::testbakes {

namespace {

constexpr double beyond = 10;  // times the largest dose

// Unknowns (d, ln e, ln b).
struct Fitting {
  const std::vector<double>& x;
  const std::vector<double>& y;

  [[nodiscard]] double cost(const Eigen::Vector3d& p,
                            Eigen::VectorXd& r,
                            Eigen::MatrixXd& j) const {
    const double e = std::exp(p(1));
    const double b = std::exp(p(2));
    for (Eigen::Index i = 0; i < r.size(); ++i) {
      const double dose = x[static_cast<std::size_t>(i)];
      const double u = dose > 0 ? std::pow(dose / e, b) : 0;
      const double g = 1 / (1 + u);
      r(i) = y[static_cast<std::size_t>(i)] - p(0) * g;
      j(i, 0) = g;
      // dg/d ln e = g^2 u b, dg/d ln b = -g^2 u b ln(x/e)
      j(i, 1) = p(0) * g * g * u * b;
      j(i, 2) = dose > 0 ? -p(0) * g * g * u * b * std::log(dose / e) : 0;
    }
    return r.squaredNorm();
  }
};

struct Found {
  Eigen::Vector3d p;
  double cost = 0;
  Eigen::MatrixXd j;
};

std::optional<Found> descend(const Fitting& fitting, Eigen::Vector3d p) {
  const auto n = static_cast<Eigen::Index>(fitting.x.size());
  Eigen::VectorXd r(n);
  Eigen::MatrixXd j(n, 3);
  double cost = fitting.cost(p, r, j);
  double damping = 1e-3;
  for (int step = 0; step < 400; ++step) {
    Eigen::Matrix3d normal = j.transpose() * j;
    const Eigen::Vector3d gradient = j.transpose() * r;
    normal.diagonal() += damping * (normal.diagonal().array() + 1e-12).matrix();
    const Eigen::Vector3d by = normal.ldlt().solve(gradient);
    Eigen::VectorXd next_r(n);
    Eigen::MatrixXd next_j(n, 3);
    const Eigen::Vector3d next = p + by;
    const double next_cost = fitting.cost(next, next_r, next_j);
    if (std::isfinite(next_cost) && next_cost <= cost) {
      const bool still = by.norm() < 1e-12 * (1 + p.norm()) || cost - next_cost < 1e-16 * cost;
      p = next;
      r = next_r;
      j = next_j;
      cost = next_cost;
      damping = std::max(1e-12, damping / 10);
      if (still) return Found{p, cost, j};
    } else {
      damping *= 10;
      if (damping > 1e12) return Found{p, cost, j};
    }
  }
  return std::nullopt;
}

}  // namespace

double DoseCurve::at(double dose) const {
  return dose > 0 ? top / (1 + std::pow(dose / half_speed_dose, power)) : top;
}

Result<DoseCurve> fit_dose_curve(const std::vector<double>& dose,
                                 const std::vector<double>& speed,
                                 double level) {
  const auto finite = [](double v) { return std::isfinite(v); };
  const bool numbers = std::all_of(dose.begin(), dose.end(), finite) &&
                       std::all_of(speed.begin(), speed.end(), finite);
  if (dose.size() != speed.size() || dose.size() < 4 || !numbers ||
      std::set<double>(dose.begin(), dose.end()).size() < 3) {
    return failure(ErrorCode::bad_input,
                   "",
                   "a dose curve needs four doughs of three doses at least, each with its speed");
  }
  const double most_dose = *std::max_element(dose.begin(), dose.end());
  const double most_speed = *std::max_element(speed.begin(), speed.end());
  const Fitting fitting{dose, speed};
  std::optional<Found> best;
  for (const double share : {0.3, 0.7, 1.5}) {
    for (const double power : {1.0, 2.0, 4.0}) {
      const auto found =
          descend(fitting, {most_speed, std::log(share * most_dose), std::log(power)});
      if (found && (!best || found->cost < best->cost)) best = found;
    }
  }
  if (!best || !best->p.allFinite() || std::exp(best->p(1)) > beyond * most_dose) {
    return failure(ErrorCode::no_convergence,
                   "",
                   "no half-speed dose can be seen in these doughs: try a larger dose");
  }
  DoseCurve curve;
  curve.top = best->p(0);
  curve.half_speed_dose = std::exp(best->p(1));
  curve.power = std::exp(best->p(2));
  curve.freedom = static_cast<int>(dose.size()) - 3;
  curve.residual = std::sqrt(best->cost / curve.freedom);
  const Eigen::Matrix3d covariance =
      (best->j.transpose() * best->j).inverse() * (curve.residual * curve.residual);
  const double log_error = std::sqrt(covariance(1, 1));
  curve.top_error = std::sqrt(covariance(0, 0));
  curve.half_error = curve.half_speed_dose * log_error;
  curve.power_error = curve.power * std::sqrt(covariance(2, 2));
  const boost::math::students_t t(curve.freedom);
  const double reach = boost::math::quantile(t, (1 + level) / 2) * log_error;
  curve.half_low = curve.half_speed_dose * std::exp(-reach);
  curve.half_high = curve.half_speed_dose * std::exp(reach);
  return curve;
}

}  // namespace barm::testbakes

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <ranges>

#include "testbakes/compared.h"

namespace barm::testbakes {

namespace {

constexpr double hardly_risen = 1.1;

double gompertz(double t, double a, double mu, double lag) {
  return 1 + a * std::exp(-std::exp(mu * std::numbers::e * (lag - t) / a + 1));
}

/// Looks up to and with the highest.
std::vector<Look> rising(const Watched& jar) {
  const auto highest =
      std::max_element(jar.looks.begin(), jar.looks.end(), [](const Look& a, const Look& b) {
        return a.ratio < b.ratio;
      });
  std::vector<Look> out{{0, 1}};
  out.insert(out.end(), jar.looks.begin(), highest + 1);
  return out;
}

/// Unknowns (ln A, ln mu, lag), and where few looks leave them: with their sd.
struct Near {
  Eigen::Vector3d at, sd;
};

constexpr double usual_error = 0.05;  // of a look, against which nearness is weighed

/// Looks less curve, and how far the unknowns lie from what is seen.
Eigen::VectorXd residuals(const std::vector<Look>& looks,
                          const Near& near,
                          const Eigen::Vector3d& p) {
  const auto n = static_cast<Eigen::Index>(looks.size());
  Eigen::VectorXd r(n + 3);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Look& look = looks[static_cast<std::size_t>(i)];
    r(i) = look.ratio - gompertz(look.hours, std::exp(p(0)), std::exp(p(1)), p(2));
  }
  r.tail(3) = usual_error * (near.at - p).cwiseQuotient(near.sd);
  return r;
}

double misfit(const std::vector<Look>& looks, const Near& near, const Eigen::Vector3d& p) {
  const double sum = residuals(looks, near, p).squaredNorm();
  return std::isfinite(sum) ? sum : 1e300;
}

/// Levenberg & Marquardt with differences; three unknowns, a dozen looks.
Eigen::Vector3d fitted(const std::vector<Look>& looks, const Near& near, Eigen::Vector3d p) {
  double damping = 1e-2;
  double cost = misfit(looks, near, p);
  for (int step = 0; step < 200 && damping < 1e10; ++step) {
    const Eigen::VectorXd r = residuals(looks, near, p);
    Eigen::MatrixXd j(r.size(), 3);
    for (int k = 0; k < 3; ++k) {
      Eigen::Vector3d moved = p;
      constexpr double by = 1e-6;
      moved(k) += by;
      j.col(k) = (r - residuals(looks, near, moved)) / by;
    }
    Eigen::Matrix3d normal = j.transpose() * j;
    normal.diagonal() += damping * (normal.diagonal().array() + 1e-9).matrix();
    const Eigen::Vector3d next = p + normal.ldlt().solve(j.transpose() * r);
    const double next_cost = misfit(looks, near, next);
    if (!(next_cost < cost)) {
      damping *= 5;
      continue;
    }
    const bool still = cost - next_cost < 1e-12 * (1 + cost);
    p = next;
    cost = next_cost;
    damping /= 5;
    if (still) break;
  }
  return p;
}

/// Whether the last stretch goes up by less than a tenth of the steepest.
bool stopped_rising(const std::vector<Look>& looks, double steepest) {
  constexpr double stretch = 3;  // h at least, for a look is read to a few hundredths
  const Look& last = looks.back();
  for (const Look& look : looks | std::views::reverse) {
    if (last.hours - look.hours < stretch) continue;
    return (last.ratio - look.ratio) / (last.hours - look.hours) < 0.1 * steepest;
  }
  return false;
}

}  // namespace

Rise rise_of(const Watched& jar) {
  const auto looks = rising(jar);
  Rise rise;
  rise.peak = std::max(1.0, looks.back().ratio);
  rise.risen = rise.peak > hardly_risen;
  if (!rise.risen) return rise;
  const double a = rise.peak - 1;
  double steepest = 1e-3;
  for (std::size_t i = 1; i < looks.size(); ++i) {
    const double apart = looks[i].hours - looks[i - 1].hours;
    if (apart > 0) steepest = std::max(steepest, (looks[i].ratio - looks[i - 1].ratio) / apart);
  }
  double begins = 0;  // risen by a tenth
  for (const Look& look : looks) {
    begins = look.hours;
    if (look.ratio > hardly_risen) break;
  }
  const Near near{{std::log(a), std::log(steepest), begins}, {0.5, 0.7, 4}};
  Eigen::Vector3d best = near.at;
  double least = 1e300;
  for (const double lag : {0.1, 0.3, 0.6}) {
    const Eigen::Vector3d p =
        fitted(looks, near, {std::log(1.1 * a), std::log(steepest), lag * looks.back().hours});
    if (misfit(looks, near, p) >= least) continue;
    least = misfit(looks, near, p);
    best = p;
  }
  rise.peak_seen = jar.looks.back().ratio < rise.peak || stopped_rising(looks, steepest);
  rise.speed = std::exp(best(1));
  rise.lag = best(2);
  return rise;
}

}  // namespace barm::testbakes

#include "testbakes/compared.h"

#include <Eigen/Dense>
#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numbers>
#include <numeric>
#include <set>

#include "generated/constants.h"

namespace barm::testbakes {

namespace {

constexpr double hardly_risen = 1.1;
constexpr double level = 0.9;
constexpr int worth_of_knowledge = 4;  // degrees of freedom; ours

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

/// Sum of squares; lag and ln of the others as unknowns keeps them where they can be.
double misfit(const std::vector<Look>& looks, const Eigen::Vector3d& p) {
  double sum = 0;
  for (const Look& look : looks) {
    const double off = look.ratio - gompertz(look.hours, std::exp(p(0)), std::exp(p(1)), p(2));
    sum += off * off;
  }
  return std::isfinite(sum) ? sum : 1e300;
}

/// Levenberg & Marquardt with differences; three unknowns, a dozen looks.
Eigen::Vector3d fitted(const std::vector<Look>& looks, Eigen::Vector3d p) {
  const auto n = static_cast<Eigen::Index>(looks.size());
  double damping = 1e-2;
  double cost = misfit(looks, p);
  for (int step = 0; step < 200 && damping < 1e10; ++step) {
    Eigen::VectorXd r(n);
    Eigen::MatrixXd j(n, 3);
    for (Eigen::Index i = 0; i < n; ++i) {
      const Look& look = looks[static_cast<std::size_t>(i)];
      const auto at = [&](const Eigen::Vector3d& q) {
        return gompertz(look.hours, std::exp(q(0)), std::exp(q(1)), q(2));
      };
      r(i) = look.ratio - at(p);
      for (int k = 0; k < 3; ++k) {
        Eigen::Vector3d moved = p;
        constexpr double by = 1e-6;
        moved(k) += by;
        j(i, k) = (at(moved) - at(p)) / by;
      }
    }
    Eigen::Matrix3d normal = j.transpose() * j;
    normal.diagonal() += damping * (normal.diagonal().array() + 1e-9).matrix();
    const Eigen::Vector3d next = p + normal.ldlt().solve(j.transpose() * r);
    const double next_cost = misfit(looks, next);
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

/// Holm: the smallest times k, the next times k - 1, …, never falling, at most 1.
void adjust_after_holm(std::vector<Contrast>& contrasts) {
  std::vector<std::size_t> order(contrasts.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return contrasts[a].p < contrasts[b].p;
  });
  double least = 0;
  for (std::size_t i = 0; i < order.size(); ++i) {
    double& p = contrasts[order[i]].p;
    least = std::max(least, std::min(1.0, static_cast<double>(order.size() - i) * p));
    p = least;
  }
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
  Eigen::Vector3d best{std::log(a), std::log(steepest), 0};
  double least = 1e300;
  for (const double lag : {0.1, 0.3, 0.6}) {
    const Eigen::Vector3d p =
        fitted(looks, {std::log(1.1 * a), std::log(steepest), lag * looks.back().hours});
    if (misfit(looks, p) >= least) continue;
    least = misfit(looks, p);
    best = p;
  }
  rise.speed = std::exp(best(1));
  rise.lag = best(2);
  return rise;
}

std::optional<Comparison> compared(const std::string& what,
                                   const std::vector<double>& y,
                                   const std::vector<std::size_t>& dough,
                                   const std::vector<std::size_t>& day,
                                   std::size_t control,
                                   double known_scatter,
                                   int weight) {
  const std::set<std::size_t> doughs(dough.begin(), dough.end());
  const std::set<std::size_t> days(day.begin(), day.end());
  if (!doughs.contains(control) || doughs.size() < 2) return std::nullopt;
  const auto n = static_cast<Eigen::Index>(y.size());
  const auto columns = static_cast<Eigen::Index>(doughs.size() + days.size() - 1);
  Eigen::MatrixXd x = Eigen::MatrixXd::Zero(n, columns);
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto at = static_cast<std::size_t>(i);
    x(i, static_cast<Eigen::Index>(std::distance(doughs.begin(), doughs.find(dough[at])))) = 1;
    const auto of_day = std::distance(days.begin(), days.find(day[at]));
    if (of_day > 0) x(i, static_cast<Eigen::Index>(doughs.size()) + of_day - 1) = 1;
  }
  const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(x);
  if (qr.rank() < columns) return std::nullopt;
  const Eigen::Map<const Eigen::VectorXd> values(y.data(), n);
  const Eigen::VectorXd found = qr.solve(values);
  const double left = (values - x * found).squaredNorm();
  Comparison out;
  out.what = what;
  out.freedom = static_cast<int>(n - columns) + weight;
  if (out.freedom < 1) return std::nullopt;
  out.scatter = std::sqrt((left + weight * known_scatter * known_scatter) / out.freedom);
  const Eigen::MatrixXd inverse = (x.transpose() * x).inverse();
  const boost::math::students_t t(out.freedom);
  const auto count = static_cast<double>(doughs.size() - 1);
  const double reach = boost::math::quantile(t, 1 - (1 - level) / (2 * count));
  const auto base = std::distance(doughs.begin(), doughs.find(control));
  for (const std::size_t one : doughs) {
    if (one == control) continue;
    Eigen::VectorXd c = Eigen::VectorXd::Zero(columns);
    c(std::distance(doughs.begin(), doughs.find(one))) = 1;
    c(base) = -1;
    Contrast contrast;
    contrast.dough = one;
    contrast.difference = c.dot(found);
    const double error = out.scatter * std::sqrt(c.dot(inverse * c));
    contrast.low = contrast.difference - reach * error;
    contrast.high = contrast.difference + reach * error;
    contrast.p = error > 0 ? 2 * boost::math::cdf(boost::math::complement(
                                     t, std::abs(contrast.difference) / error))
                           : 0;
    out.contrasts.push_back(contrast);
  }
  adjust_after_holm(out.contrasts);
  return out;
}

std::vector<Comparison> compare(const std::vector<Watched>& jars, std::size_t control) {
  std::vector<double> lag;
  std::vector<double> speed;
  std::vector<double> peak;
  std::vector<std::size_t> dough;
  std::vector<std::size_t> day;
  std::vector<std::size_t> all_doughs;
  std::vector<std::size_t> all_days;
  for (const Watched& jar : jars) {
    const Rise rise = rise_of(jar);
    peak.push_back(rise.peak);
    all_doughs.push_back(jar.dough);
    all_days.push_back(jar.day);
    if (!rise.risen) continue;
    lag.push_back(rise.lag);
    speed.push_back(std::log(rise.speed));
    dough.push_back(jar.dough);
    day.push_back(jar.day);
  }
  // What is known of jars before these: data/testbakes.toml. A lag scatters by a quarter of an hour
  // or so with the speed; a peak by the reading of the ruler.
  const double known = constants::scatter::jar.value.si();
  std::vector<Comparison> out;
  const auto add = [&](std::optional<Comparison> one) {
    if (one) out.push_back(*std::move(one));
  };
  add(compared("lag", lag, dough, day, control, 5 * known, worth_of_knowledge));
  add(compared("speed", speed, dough, day, control, known, worth_of_knowledge));
  add(compared("peak", peak, all_doughs, all_days, control, known, worth_of_knowledge));
  return out;
}

}  // namespace barm::testbakes

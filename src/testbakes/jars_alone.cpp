#include "testbakes/internal/jars_alone.h"

#include <Eigen/Dense>
#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <boost/random/sobol.hpp>
#include <cmath>
#include <limits>
#include <map>

#include "numerics/random.h"
#include "numerics/symmetric.h"
#include "testbakes/doughs_needed.h"
#include "testbakes/internal/own_way.h"

namespace barm::testbakes::internal {

namespace {

constexpr int worth_of_scatter = 4;       // degrees of freedom; ours
constexpr double just_after = 1.1;        // of the last look
constexpr double heights[] = {1.5, 1.3};  // the first that most jars reach
constexpr double lowest = 1.15;
constexpr std::size_t draws_of_halves = 4096;

bool reaches(const Watched& jar, double height) {
  return std::any_of(
      jar.looks.begin(), jar.looks.end(), [&](const Look& look) { return look.ratio >= height; });
}

double height_that_tells(const std::vector<Watched>& jars) {
  for (const double height : heights) {
    const auto there = std::count_if(
        jars.begin(), jars.end(), [&](const Watched& jar) { return reaches(jar, height); });
    if (4 * there >= 3 * static_cast<std::ptrdiff_t>(jars.size())) return height;
  }
  return lowest;
}

/// ln of the hours to a height.
double ln_hours_to(const Watched& jar, double height) {
  Look before{0, 1};
  for (const Look& look : jar.looks) {
    if (look.ratio >= height) {
      const double part = (height - before.ratio) / (look.ratio - before.ratio);
      return std::log(before.hours + std::clamp(part, 0.01, 1.0) * (look.hours - before.hours));
    }
    before = look;
  }
  return std::log(just_after * jar.looks.back().hours);
}

/// A dough as it was mixed on one day.
struct Mixed {
  std::size_t day = 0, dough = 0;
  double ln_hours = 0;  ///< mean of its jars
  int jars = 0;
};

struct AllMixed {
  std::vector<Mixed> doughs;
  std::map<std::size_t, Eigen::Index> days;  ///< each one's block
  int each = 1;                              ///< jars of the dough that has most
};

AllMixed all_mixed(const std::vector<Watched>& jars) {
  const double height = height_that_tells(jars);
  std::map<std::pair<std::size_t, std::size_t>, Mixed> mixed;
  AllMixed out;
  for (const Watched& jar : jars) {
    Mixed& one = mixed[{jar.day, jar.dough}];
    one.day = jar.day;
    one.dough = jar.dough;
    one.ln_hours += ln_hours_to(jar, height);
    out.each = std::max(out.each, ++one.jars);
    out.days.try_emplace(jar.day, static_cast<Eigen::Index>(out.days.size()));
  }
  for (auto& [unused, one] : mixed) {
    one.ln_hours /= one.jars;
    out.doughs.push_back(one);
  }
  return out;
}

double known_scatter(int jars) {
  const Scatter scatter = usual_scatter();
  return std::hypot(scatter.dough, scatter.jar / std::sqrt(jars));
}

/// What the hours of doughs say of what slowed each of them, days taken out: with m how much later
/// each dough was to be expected,
///
///     ln p(hours | m) = -1/2 m'A m + b'm + const
struct Blocks {
  Eigen::MatrixXd a;
  Eigen::VectorXd b;

  explicit Blocks(const AllMixed& mixed, std::size_t doughs)
      : a(Eigen::MatrixXd::Zero(size(doughs), size(doughs))),
        b(Eigen::VectorXd::Zero(size(doughs))) {
    const auto days = static_cast<Eigen::Index>(mixed.days.size());
    Eigen::MatrixXd in_day = Eigen::MatrixXd::Zero(days, size(doughs));  // precision of each
    Eigen::VectorXd later = Eigen::VectorXd::Zero(days);
    for (const Mixed& one : mixed.doughs) {
      const double precision = std::pow(known_scatter(one.jars), -2);
      const auto dough = static_cast<Eigen::Index>(one.dough);
      const Eigen::Index day = mixed.days.at(one.day);
      a(dough, dough) += precision;
      b(dough) += precision * one.ln_hours;
      in_day(day, dough) = precision;
      later(day) += precision * one.ln_hours;
    }
    const Eigen::VectorXd all = in_day.rowwise().sum();
    a -= in_day.transpose() * all.cwiseInverse().asDiagonal() * in_day;
    b -= in_day.transpose() * later.cwiseQuotient(all);
  }

  /// ln p of these, up to what all share, with one dough going its own way or none:
  ///     p (1 - c + c / D sum_d R_d),  R_d = (1 + v A_dd)^-1/2 exp(1/2 v g_d^2 / (1 + v A_dd)),
  ///     g = b - A m, v the variance of such a way
  [[nodiscard]] double ln_chance(const Eigen::VectorXd& m) const {
    constexpr double v = ln_own_way * ln_own_way;
    const Eigen::VectorXd g = b - a * m;
    std::vector<double> ln{std::log(1 - chance_of_own_way)};
    const double ln_each =
        std::log(chance_of_own_way / static_cast<double>((a.diagonal().array() > 0).count()));
    for (Eigen::Index d = 0; d < g.size(); ++d) {
      if (a(d, d) <= 0) continue;
      const double wide = 1 + v * a(d, d);
      ln.push_back(ln_each + 0.5 * v * g(d) * g(d) / wide - 0.5 * std::log(wide));
    }
    const double most = *std::max_element(ln.begin(), ln.end());
    double ways = 0;
    for (const double one : ln) ways += std::exp(one - most);
    return 0.5 * m.dot(b + g) + most + std::log(ways);
  }

 private:
  static Eigen::Index size(std::size_t n) { return static_cast<Eigen::Index>(n); }
};

/// ln of 1 over the speed left to each dough by one cause, for one draw of its half-speed dose.
Eigen::VectorXd later_by(const CausePrior& cause, const std::vector<Doses>& doses, double normal) {
  const double half = cause.half_speed_dose * std::exp(cause.doubt * normal);
  Eigen::VectorXd out(static_cast<Eigen::Index>(doses.size()));
  for (std::size_t d = 0; d < doses.size(); ++d)
    out(static_cast<Eigen::Index>(d)) =
        -std::log(speed_left(doses[d][static_cast<std::size_t>(cause.cause)], half, cause.power));
  return out;
}

/// The standard normal number at this share of all 64-bit ones.
double normal_of(std::uint64_t share) {
  return numerics::normal_quantile((static_cast<double>(share) + 0.5) * 0x1p-64);
}

double ln_before(const std::vector<CausePrior>& causes, Hypothesis acting) {
  double out = 0;
  for (std::size_t c = 0; c < causes.size(); ++c)
    out += std::log(((acting >> c) & 1U) != 0 ? causes[c].chance : 1 - causes[c].chance);
  return out;
}

}  // namespace

std::vector<double> chance_by_chance(const std::vector<Watched>& jars,
                                     const std::vector<Doses>& doses,
                                     const std::vector<Cause>& causes) {
  const AllMixed mixed = all_mixed(jars);
  const auto n = static_cast<Eigen::Index>(mixed.doughs.size());
  const auto first = static_cast<Eigen::Index>(mixed.days.size());
  Eigen::MatrixXd x = Eigen::MatrixXd::Zero(n, first + static_cast<Eigen::Index>(causes.size()));
  Eigen::VectorXd y(n);
  Eigen::Index row = 0;
  for (const Mixed& one : mixed.doughs) {
    y(row) = one.ln_hours;
    x(row, mixed.days.at(one.day)) = 1;
    for (std::size_t c = 0; c < causes.size(); ++c) {
      const auto of = static_cast<std::size_t>(causes[c]);
      double most = 0;
      for (const Mixed& other : mixed.doughs) most = std::max(most, doses[other.dough][of]);
      if (most > 0)
        x(row, first + static_cast<Eigen::Index>(c)) = std::log1p(doses[one.dough][of] / most);
    }
    ++row;
  }
  // Doughs matched on a kitchen scale agree no better.
  const auto [inverse, rank] = numerics::pseudo_inverse(x, 0.02);
  const Eigen::VectorXd found = inverse * y;
  const double known = known_scatter(mixed.each);
  const auto freedom = static_cast<double>(n - rank + worth_of_scatter);
  const double left = (y - x * found).squaredNorm() + worth_of_scatter * known * known;
  const boost::math::students_t t(freedom);
  std::vector<double> out;
  for (std::size_t c = 0; c < causes.size(); ++c) {
    const Eigen::Index at = first + static_cast<Eigen::Index>(c);
    const double error = std::sqrt(left / freedom) * inverse.row(at).norm();
    out.push_back(error > 0 ? boost::math::cdf(boost::math::complement(t, found(at) / error)) : 1);
  }
  return out;
}

std::vector<double> chance_to_act(const std::vector<Watched>& jars,
                                  const std::vector<Doses>& doses,
                                  const std::vector<CausePrior>& causes) {
  const Blocks blocks(all_mixed(jars), doses.size());
  const Hypothesis count = 1U << causes.size();
  std::vector<double> share(count, 0);
  // The mean over draws of p(hours | combination): kept against the largest so far.
  double most = -std::numeric_limits<double>::infinity();
  boost::random::sobol spread(causes.size());
  for (std::size_t draw = 0; draw < draws_of_halves; ++draw) {
    std::vector<Eigen::VectorXd> later;
    for (const CausePrior& cause : causes)
      later.push_back(later_by(cause, doses, normal_of(spread())));
    for (Hypothesis acting = 0; acting < count; ++acting) {
      Eigen::VectorXd m = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(doses.size()));
      for (std::size_t c = 0; c < causes.size(); ++c)
        if (((acting >> c) & 1U) != 0) m += later[c];
      const double ln = ln_before(causes, acting) + blocks.ln_chance(m);
      if (ln > most) {
        for (double& one : share) one *= std::exp(most - ln);
        most = ln;
      }
      share[acting] += std::exp(ln - most);
    }
  }
  double all = 0;
  for (const double one : share) all += one;
  std::vector<double> out(causes.size(), 0);
  for (Hypothesis acting = 0; acting < count; ++acting)
    for (std::size_t c = 0; c < causes.size(); ++c)
      if (((acting >> c) & 1U) != 0) out[c] += share[acting] / all;
  return out;
}

}  // namespace barm::testbakes::internal

#include "testbakes/internal/jars_alone.h"

#include <Eigen/Dense>
#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <map>

#include "numerics/symmetric.h"
#include "testbakes/doughs_needed.h"

namespace barm::testbakes::internal {

namespace {

constexpr int worth_of_scatter = 4;       // degrees of freedom; ours
constexpr double just_after = 1.1;        // of the last look
constexpr double heights[] = {1.5, 1.3};  // the first that most jars reach
constexpr double lowest = 1.15;

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

struct Mean {
  double sum = 0;
  int count = 0;
};

}  // namespace

std::vector<double> chance_by_chance(const std::vector<Watched>& jars,
                                     const std::vector<Doses>& doses,
                                     const std::vector<Cause>& causes) {
  const double height = height_that_tells(jars);
  std::map<std::pair<std::size_t, std::size_t>, Mean> mixed;  // by day and dough
  std::map<std::size_t, Eigen::Index> days;
  int each = 1;
  for (const Watched& jar : jars) {
    Mean& mean = mixed[{jar.day, jar.dough}];
    mean.sum += ln_hours_to(jar, height);
    each = std::max(each, ++mean.count);
    days.try_emplace(jar.day, static_cast<Eigen::Index>(days.size()));
  }
  const auto n = static_cast<Eigen::Index>(mixed.size());
  const auto first = static_cast<Eigen::Index>(days.size());
  Eigen::MatrixXd x = Eigen::MatrixXd::Zero(n, first + static_cast<Eigen::Index>(causes.size()));
  Eigen::VectorXd y(n);
  Eigen::Index row = 0;
  for (const auto& [key, mean] : mixed) {
    y(row) = mean.sum / mean.count;
    x(row, days[key.first]) = 1;
    for (std::size_t c = 0; c < causes.size(); ++c) {
      const auto of = static_cast<std::size_t>(causes[c]);
      double most = 0;
      for (const auto& [other, unused] : mixed) most = std::max(most, doses[other.second][of]);
      if (most > 0)
        x(row, first + static_cast<Eigen::Index>(c)) = std::log1p(doses[key.second][of] / most);
    }
    ++row;
  }
  // Doughs matched on a kitchen scale agree no better.
  const auto [inverse, rank] = numerics::pseudo_inverse(x, 0.02);
  const Eigen::VectorXd found = inverse * y;
  const Scatter scatter = usual_scatter();
  const double known = std::hypot(scatter.dough, scatter.jar / std::sqrt(each));
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

}  // namespace barm::testbakes::internal

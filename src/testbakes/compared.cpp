#include "testbakes/compared.h"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <map>
#include <set>

#include "generated/constants.h"
#include "numerics/symmetric.h"

namespace barm::testbakes {

namespace {

constexpr double level = 0.9;
constexpr int worth_of_knowledge = 4;  // degrees of freedom; ours

/// Holm: the smallest times k, the next times k - 1, …, never falling, at most 1.
void adjust_after_holm(std::vector<Contrast*> contrasts) {
  std::stable_sort(contrasts.begin(), contrasts.end(), [](const Contrast* a, const Contrast* b) {
    return a->p < b->p;
  });
  double least = 0;
  for (std::size_t i = 0; i < contrasts.size(); ++i) {
    double& p = contrasts[i]->p;
    least = std::max(least, std::min(1.0, static_cast<double>(contrasts.size() - i) * p));
    p = least;
  }
}

/// One list of values, each of a dough mixed on a day.
struct Values {
  std::vector<double> y;
  std::vector<std::size_t> dough, day;
  std::vector<Unseen> unseen;

  void add(double value, std::size_t of_dough, std::size_t on_day) {
    y.push_back(value);
    dough.push_back(of_dough);
    day.push_back(on_day);
  }
};

/// Least squares of y on x in which no residual counts as more than `most` times its scale.
struct Solved {
  Eigen::VectorXd found;
  double left = 0;  // sum of squares
};

Solved robustly_solved(const Eigen::MatrixXd& x,
                       const Eigen::MatrixXd& inverse,
                       const Eigen::VectorXd& y,
                       double known_scatter) {
  constexpr double most = 3.5;
  constexpr double to_sd = 1.4826;  // of a median deviation
  constexpr int rounds = 30;
  Eigen::VectorXd near = y;
  Solved out;
  for (int round = 0; round < rounds; ++round) {
    out.found = inverse * near;
    const Eigen::VectorXd r = y - x * out.found;
    std::vector<double> sizes(static_cast<std::size_t>(r.size()));
    for (std::size_t i = 0; i < sizes.size(); ++i)
      sizes[i] = std::abs(r(static_cast<Eigen::Index>(i)));
    std::nth_element(
        sizes.begin(), sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2), sizes.end());
    const double bound = most * std::max(known_scatter, to_sd * sizes[sizes.size() / 2]);
    const Eigen::VectorXd clipped = r.cwiseMax(-bound).cwiseMin(bound);
    out.left = clipped.squaredNorm();
    near = x * out.found + clipped;
    if ((r - clipped).isZero(0)) break;
  }
  return out;
}

/// Contrasts with intervals for `together` of them at once, p of each by itself.
std::optional<Comparison> contrasts_of(const std::string& what,
                                       const Values& values,
                                       std::size_t control,
                                       double known_scatter,
                                       int weight,
                                       std::size_t together) {
  const std::set<std::size_t> doughs(values.dough.begin(), values.dough.end());
  const std::set<std::size_t> days(values.day.begin(), values.day.end());
  if (!doughs.contains(control) || doughs.size() < 2) return std::nullopt;
  const auto n = static_cast<Eigen::Index>(values.y.size());
  const auto columns = static_cast<Eigen::Index>(doughs.size() + days.size() - 1);
  Eigen::MatrixXd x = Eigen::MatrixXd::Zero(n, columns);
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto at = static_cast<std::size_t>(i);
    x(i, std::distance(doughs.begin(), doughs.find(values.dough[at]))) = 1;
    const auto of_day = std::distance(days.begin(), days.find(values.day[at]));
    if (of_day > 0) x(i, static_cast<Eigen::Index>(doughs.size()) + of_day - 1) = 1;
  }
  const auto [solving, rank] = numerics::pseudo_inverse(x);
  if (rank < columns) return std::nullopt;
  Comparison out;
  out.what = what;
  out.freedom = static_cast<int>(n - columns) + weight;
  if (out.freedom < 1) return std::nullopt;
  const Solved solved = robustly_solved(
      x, solving, Eigen::Map<const Eigen::VectorXd>(values.y.data(), n), known_scatter);
  out.scatter = std::sqrt((solved.left + weight * known_scatter * known_scatter) / out.freedom);
  const Eigen::MatrixXd inverse = solving * solving.transpose();  // of x'x
  const boost::math::students_t t(out.freedom);
  const auto count = static_cast<double>(together > 0 ? together : doughs.size() - 1);
  const double reach = boost::math::quantile(t, 1 - (1 - level) / (2 * count));
  const auto base = std::distance(doughs.begin(), doughs.find(control));
  for (const std::size_t one : doughs) {
    if (one == control) continue;
    Eigen::VectorXd c = Eigen::VectorXd::Zero(columns);
    c(std::distance(doughs.begin(), doughs.find(one))) = 1;
    c(base) = -1;
    Contrast contrast;
    contrast.dough = one;
    contrast.difference = c.dot(solved.found);
    const double error = out.scatter * std::sqrt(c.dot(inverse * c));
    contrast.low = contrast.difference - reach * error;
    contrast.high = contrast.difference + reach * error;
    contrast.p = error > 0 ? 2 * boost::math::cdf(boost::math::complement(
                                     t, std::abs(contrast.difference) / error))
                           : 0;
    out.contrasts.push_back(contrast);
  }
  return out;
}

/// What the jars of one dough on one day showed.
struct Mixed {
  std::size_t dough = 0, day = 0;
  std::vector<Rise> jars;
  double last = 0;  // hours of the last look

  [[nodiscard]] double mean(double (*of)(const Rise&)) const {
    double sum = 0;
    for (const Rise& rise : jars) sum += of(rise);
    return sum / static_cast<double>(jars.size());
  }

  [[nodiscard]] bool all(bool Rise::* is) const {
    return std::all_of(jars.begin(), jars.end(), [&](const Rise& rise) { return rise.*is; });
  }
};

std::vector<Mixed> mixed_of(const std::vector<Watched>& jars) {
  std::map<std::pair<std::size_t, std::size_t>, Mixed> out;
  for (const Watched& jar : jars) {
    Mixed& mixed = out[{jar.dough, jar.day}];
    mixed.dough = jar.dough;
    mixed.day = jar.day;
    mixed.jars.push_back(rise_of(jar));
    mixed.last = std::max(mixed.last, jar.looks.back().hours);
  }
  std::vector<Mixed> list;
  for (auto& [key, mixed] : out) list.push_back(std::move(mixed));
  return list;
}

/// A dough that is in no value of a list is unseen there; its words are those of its last day.
void keep_unseen(Values& values, const std::map<std::size_t, std::string>& words) {
  for (const auto& [dough, why] : words) {
    if (std::count(values.dough.begin(), values.dough.end(), dough) == 0)
      values.unseen.push_back({dough, why});
  }
}

}  // namespace

std::optional<Comparison> compared(const std::string& what,
                                   const std::vector<double>& y,
                                   const std::vector<std::size_t>& dough,
                                   const std::vector<std::size_t>& day,
                                   std::size_t control,
                                   double known_scatter,
                                   int weight) {
  auto out = contrasts_of(what, {y, dough, day, {}}, control, known_scatter, weight, 0);
  if (!out) return out;
  std::vector<Contrast*> all;
  for (Contrast& one : out->contrasts) all.push_back(&one);
  adjust_after_holm(std::move(all));
  return out;
}

std::vector<Comparison> compare(const std::vector<Watched>& jars, std::size_t control) {
  Values lag;
  Values speed;
  Values peak;
  std::map<std::size_t, std::string> never_rose;
  std::map<std::size_t, std::string> cut_off;
  std::size_t each = 1;
  for (const Mixed& mixed : mixed_of(jars)) {
    each = std::max(each, mixed.jars.size());
    if (mixed.all(&Rise::risen)) {
      lag.add(mixed.mean([](const Rise& rise) { return rise.lag; }), mixed.dough, mixed.day);
      speed.add(mixed.mean([](const Rise& rise) { return std::log(rise.speed); }),
                mixed.dough,
                mixed.day);
    } else {
      never_rose[mixed.dough] = fmt::format("did not rise within {:.0f} h", mixed.last);
    }
    const double top = mixed.mean([](const Rise& rise) { return rise.peak; });
    if (mixed.all(&Rise::risen) && !mixed.all(&Rise::peak_seen)) {
      cut_off[mixed.dough] =
          fmt::format("still rising at {:.0f} h, {:.1f} times by then", mixed.last, top);
    } else {
      peak.add(top, mixed.dough, mixed.day);
    }
  }
  keep_unseen(lag, never_rose);
  keep_unseen(speed, never_rose);
  keep_unseen(peak, cut_off);
  // What is known of doughs before these: data/testbakes.toml. A lag scatters by half an hour or so
  // with the speed, a peak about as a speed does.
  const double known = std::hypot(constants::scatter::dough.value.si(),
                                  constants::scatter::jar.value.si() / std::sqrt(each));

  struct List {
    const char* what;
    const Values& values;
    double known;
  };

  const List lists[] = {{"lag", lag, 5 * known}, {"speed", speed, known}, {"peak", peak, known}};
  std::size_t together = 0;
  for (const List& list : lists)
    for (const std::size_t dough :
         std::set<std::size_t>(list.values.dough.begin(), list.values.dough.end()))
      together += dough != control ? 1 : 0;
  std::vector<Comparison> out;
  for (const List& list : lists) {
    auto one = contrasts_of(list.what,
                            list.values,
                            control,
                            list.known,
                            worth_of_knowledge,
                            std::max<std::size_t>(1, together));
    if (!one && list.values.unseen.empty()) continue;
    if (!one) one = Comparison{list.what, {}, {}, list.known, worth_of_knowledge};
    one->unseen = list.values.unseen;
    out.push_back(*std::move(one));
  }
  std::vector<Contrast*> all;
  for (Comparison& one : out)
    for (Contrast& contrast : one.contrasts) all.push_back(&contrast);
  adjust_after_holm(std::move(all));
  return out;
}

}  // namespace barm::testbakes

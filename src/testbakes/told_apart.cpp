#include "testbakes/told_apart.h"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>

#include "numerics/symmetric.h"

namespace barm::testbakes {

namespace {

// Columns of length 1: a direction along which they change by less than this is no change. Doughs
// matched on a kitchen scale agree to a percent or two, so a fiftieth is not a difference.
constexpr double no_direction = 0.02;
constexpr double poor = 5;
constexpr double serious = 10;
constexpr double takes_part = 0.15;  // of an aliased direction of length 1

double of(const Doses& doses, Cause cause) { return doses[static_cast<std::size_t>(cause)]; }

std::string listed(const std::vector<Cause>& causes, const char* last) {
  std::string out;
  for (std::size_t i = 0; i < causes.size(); ++i) {
    if (i > 0) out += i + 1 == causes.size() ? std::string(" ") + last + " " : ", ";
    out += name(causes[i]);
  }
  return out;
}

/// ln(1 + z / z_most), centred; of length 1 unless it does not vary.
Eigen::MatrixXd columns(const std::vector<Doses>& doses, const std::vector<Cause>& causes) {
  Eigen::MatrixXd x(static_cast<Eigen::Index>(doses.size()),
                    static_cast<Eigen::Index>(causes.size()));
  for (Eigen::Index j = 0; j < x.cols(); ++j) {
    const Cause cause = causes[static_cast<std::size_t>(j)];
    double most = 0;
    for (const Doses& d : doses) most = std::max(most, of(d, cause));
    for (Eigen::Index i = 0; i < x.rows(); ++i)
      x(i, j) = most > 0 ? std::log1p(of(doses[static_cast<std::size_t>(i)], cause) / most) : 0;
    x.col(j).array() -= x.col(j).mean();
    const double length = x.col(j).norm();
    if (length > no_direction) {
      x.col(j) /= length;
    } else {
      x.col(j).setZero();
    }
  }
  return x;
}

Telling telling_of(double inflation) {
  if (inflation > serious) return Telling::hardly;
  return inflation > poor ? Telling::poorly : Telling::apart;
}

class Comparing {
 public:
  Comparing(const std::vector<Doses>& doses,
            const std::vector<Cause>& causes,
            const std::vector<std::string>& names)
      : doses_(doses), names_(names) {
    out_.causes = causes;
  }

  ToldApart go() {
    if (out_.causes.empty()) {
      out_.words.emplace_back("no dough holds anything that is worth asking about");
      return std::move(out_);
    }
    x_ = columns(doses_, out_.causes);
    decompose();
    for (std::size_t j = 0; j < out_.causes.size(); ++j) out_.told.push_back(judge(j));
    say();
    working();
    return std::move(out_);
  }

 private:
  void decompose() {
    const numerics::Axes axes = numerics::axes_of(x_.transpose() * x_);
    out_.rank = 0;
    for (Eigen::Index k = 0; k < x_.cols(); ++k) {
      if (axes.lengths(k) > no_direction * no_direction) {
        ++out_.rank;
      } else {
        null_.emplace_back(axes.directions.col(k));
      }
    }
  }

  /// The causes that one direction of no change holds together; one alone does not vary.
  CauseTold judge(std::size_t j) const {
    CauseTold told;
    told.cause = out_.causes[j];
    const auto column = static_cast<Eigen::Index>(j);
    if (x_.col(column).norm() < 0.5) {
      told.telling = Telling::not_varied;
      told.variance_inflation = std::numeric_limits<double>::infinity();
      return told;
    }
    for (std::size_t other = 0; other < out_.causes.size(); ++other) {
      if (other != j && aliased(column, static_cast<Eigen::Index>(other)))
        told.with.push_back(out_.causes[other]);
    }
    if (!told.with.empty()) {
      told.telling = Telling::not_at_all;
      told.variance_inflation = std::numeric_limits<double>::infinity();
      return told;
    }
    told.variance_inflation = inflation(column);
    told.telling = telling_of(told.variance_inflation);
    if (told.telling != Telling::apart) told.with = nearest(column);
    return told;
  }

  [[nodiscard]] bool aliased(Eigen::Index a, Eigen::Index b) const {
    if (x_.col(a).norm() < 0.5 || x_.col(b).norm() < 0.5) return false;
    // Both take part in what cannot be seen: projections onto the null space are not orthogonal.
    double together = 0;
    for (const auto& v : null_) together += v(a) * v(b);
    return std::abs(together) > takes_part * takes_part;
  }

  /// 1 / (1 - R^2) of the column on the others that vary.
  [[nodiscard]] double inflation(Eigen::Index j) const {
    Eigen::MatrixXd others(x_.rows(), x_.cols() - 1);
    for (Eigen::Index k = 0, at = 0; k < x_.cols(); ++k) {
      if (k != j) others.col(at++) = x_.col(k);
    }
    if (others.cols() == 0) return 1;
    // Directions that no dough can show do not count as an explanation.
    // Those that vary are of length 1, so the largest of their changes is 1 at least.
    const auto inverse = numerics::pseudo_inverse(others, no_direction).inverse;
    const double left = (x_.col(j) - others * (inverse * x_.col(j))).squaredNorm();
    return 1 / std::max(left, 1e-12);
  }

  [[nodiscard]] std::vector<Cause> nearest(Eigen::Index j) const {
    std::vector<Cause> out;
    constexpr double together = 0.7;  // correlation
    for (Eigen::Index k = 0; k < x_.cols(); ++k) {
      if (k != j && std::abs(x_.col(j).dot(x_.col(k))) > together)
        out.push_back(out_.causes[static_cast<std::size_t>(k)]);
    }
    return out;
  }

  void say() {
    std::vector<Cause> done;
    for (const CauseTold& told : out_.told) {
      if (std::count(done.begin(), done.end(), told.cause) > 0) continue;
      std::vector<Cause> group{told.cause};
      group.insert(group.end(), told.with.begin(), told.with.end());
      switch (told.telling) {
        case Telling::apart:
          continue;
        case Telling::not_varied:
          out_.words.push_back(
              fmt::format("every dough holds the same {}: these doughs say nothing about it",
                          name(told.cause)));
          continue;
        case Telling::not_at_all:
          out_.words.push_back(fmt::format(
              "{} rise and fall together in these doughs: whichever wins, you will not know which",
              listed(group, "and")));
          break;
        case Telling::hardly:
        case Telling::poorly:
          out_.words.push_back(
              fmt::format("{} {} told from {}: a dough where {} alone moves would help",
                          name(told.cause),
                          told.telling == Telling::hardly ? "can hardly be" : "is poorly",
                          told.with.empty() ? "the rest" : listed(told.with, "and"),
                          name(told.cause)));
          continue;
      }
      done.insert(done.end(), group.begin(), group.end());
    }
    if (out_.words.empty()) {
      out_.words.push_back(
          out_.causes.size() == 1
              ? fmt::format("only {} differs between these doughs", name(out_.causes.front()))
              : fmt::format("these doughs can tell {} apart", listed(out_.causes, "and")));
    }
  }

  void working() {
    out_.working.push_back(
        fmt::format("{} doughs, {} causes, rank {}", doses_.size(), out_.causes.size(), out_.rank));
    for (const CauseTold& told : out_.told) {
      out_.working.push_back(
          std::isfinite(told.variance_inflation)
              ? fmt::format(
                    "{}: variance inflation {:.1f}", name(told.cause), told.variance_inflation)
              : fmt::format("{}: variance inflation without limit", name(told.cause)));
    }
    for (std::size_t i = 0; i < std::min(doses_.size(), names_.size()); ++i) {
      std::string line = names_[i] + ":";
      for (const Cause cause : out_.causes)
        line += fmt::format(" {} {:.3g} {},", name(cause), of(doses_[i], cause), unit(cause));
      line.pop_back();
      out_.working.push_back(line);
    }
  }

  const std::vector<Doses>& doses_;
  const std::vector<std::string>& names_;
  ToldApart out_;
  Eigen::MatrixXd x_;
  std::vector<Eigen::VectorXd> null_;
};

}  // namespace

bool ToldApart::can_name(Cause cause) const {
  for (const CauseTold& one : told) {
    if (one.cause == cause)
      return one.telling != Telling::not_at_all && one.telling != Telling::not_varied;
  }
  return false;
}

ToldApart told_apart(const std::vector<Doses>& doses,
                     const std::vector<Cause>& causes,
                     const std::vector<std::string>& names) {
  return Comparing(doses, causes, names).go();
}

}  // namespace barm::testbakes

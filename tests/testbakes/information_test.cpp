#include "testbakes/internal/information.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "numerics/random.h"

namespace barm::testbakes {

using internal::expected_information;
using internal::Foretold;

namespace {

Foretold one_reading(double weight, double mean, double sd) {
  Foretold out;
  out.weight = weight;
  out.mean = Eigen::VectorXd::Constant(1, mean);
  out.covariance = Eigen::MatrixXd::Constant(1, 1, sd * sd);
  return out;
}

double density(double y, double mean, double sd) {
  const double z = (y - mean) / sd;
  return std::exp(-0.5 * z * z) / (sd * std::sqrt(2 * std::numbers::pi));
}

// I = sum_m w_m integral p_m ln(p_m / p) dy, by the trapezoid rule.
double integrated(const std::vector<Foretold>& all) {
  double sum = 0;
  constexpr double step = 1e-3;
  for (double y = -20; y < 20; y += step) {
    double p = 0;
    for (const Foretold& one : all)
      p += one.weight * density(y, one.mean(0), std::sqrt(one.covariance(0, 0)));
    for (const Foretold& one : all) {
      const double own = density(y, one.mean(0), std::sqrt(one.covariance(0, 0)));
      if (own > 1e-300) sum += one.weight * own * std::log(own / p) * step;
    }
  }
  return sum;
}

TEST(Information, OfOneReadingIsTheIntegral) {
  for (const double apart : {0.3, 1.0, 3.0}) {
    const std::vector<Foretold> two{one_reading(0.3, 0, 1), one_reading(0.7, apart, 1.5)};
    // 40 000 readings: the error of a mean of ln p / ln p of order 1 is below 0.005.
    EXPECT_NEAR(expected_information(two, {0, 1}, 40000, 1), integrated(two), 0.015) << apart;
  }
}

TEST(Information, IsNoneWhenAllForetellTheSameAndAllWhenNothingOverlaps) {
  const std::vector<Foretold> same{one_reading(0.5, 1, 1), one_reading(0.5, 1, 1)};
  EXPECT_NEAR(expected_information(same, {0, 1}, 2000, 1), 0, 1e-9);
  const std::vector<Foretold> apart{one_reading(0.5, 0, 0.01), one_reading(0.5, 9, 0.01)};
  EXPECT_NEAR(expected_information(apart, {0, 1}, 2000, 1), std::log(2.0), 1e-6);
}

TEST(Information, AboutAGroupIsLessThanAboutItsMembers) {
  const std::vector<Foretold> four{one_reading(0.25, 0, 1),
                                   one_reading(0.25, 1, 1),
                                   one_reading(0.25, 2, 1),
                                   one_reading(0.25, 3, 1)};
  const double each = expected_information(four, {0, 1, 2, 3}, 20000, 1);
  const double pairs = expected_information(four, {0, 0, 1, 1}, 20000, 1);
  EXPECT_LT(pairs, each);
  EXPECT_GT(pairs, 0.1);
}

// Readings of a small case drawn from the exact model: a half-speed dose that is not known, so that
// the readings are not normal. The ranking by normal approximation must be that of brute force.
struct SmallCase {
  double dose;

  // Two looks at a jar whose speed is g(z/z50) of the plain one's; z50 log-normal under "acts".
  static double look(double speed, double t) { return 1 + 2 / (1 + std::exp(-(speed * t - 3))); }

  [[nodiscard]] Eigen::Vector2d drawn(bool acts, numerics::Random& random) const {
    const double half = 40 * std::exp(0.4 * random.normal());
    const double speed = acts ? 1 / (1 + std::pow(dose / half, 3)) : 1;
    return {look(speed, 2.5), look(speed, 4)};
  }

  [[nodiscard]] double by_brute_force() const {
    constexpr int n = 4000;
    constexpr double sd = 0.15;
    numerics::Random random(5, 0);
    std::vector<Eigen::Vector2d> means[2];
    for (int m = 0; m < 2; ++m)
      for (int i = 0; i < n; ++i) means[m].push_back(drawn(m == 1, random));
    const auto p = [&](const Eigen::Vector2d& y, int m) {
      double sum = 0;
      for (int i = 0; i < n; ++i)
        sum +=
            std::exp(-0.5 * (y - means[m][static_cast<std::size_t>(i)]).squaredNorm() / (sd * sd));
      return sum / n;
    };
    double information = 0;
    constexpr int readings = 300;
    for (int m = 0; m < 2; ++m) {
      for (int i = 0; i < readings; ++i) {
        Eigen::Vector2d y = drawn(m == 1, random);
        y(0) += sd * random.normal();
        y(1) += sd * random.normal();
        const double own = p(y, m);
        const double other = p(y, 1 - m);
        information += 0.5 / readings * std::log(own / (0.5 * (own + other)));
      }
    }
    return information;
  }

  [[nodiscard]] double by_approximation() const {
    numerics::Random random(6, 0);
    std::vector<Foretold> all;
    for (int m = 0; m < 2; ++m) {
      Eigen::MatrixXd y(96, 2);
      for (int i = 0; i < 96; ++i) y.row(i) = drawn(m == 1, random);
      Foretold one;
      one.weight = 0.5;
      one.mean = y.colwise().mean();
      const Eigen::MatrixXd off = y.rowwise() - one.mean.transpose();
      one.covariance = off.transpose() * off / 95.0;
      one.covariance.diagonal().array() += 0.15 * 0.15;
      all.push_back(one);
    }
    return expected_information(all, {0, 1}, 2000, 7);
  }
};

TEST(Information, RanksSmallCasesAsBruteForceDoes) {
  const double doses[] = {5, 15, 25, 40};
  double last_exact = -1;
  double last_near = -1;
  for (const double dose : doses) {
    const SmallCase small{dose};
    const double exact = small.by_brute_force();
    const double near = small.by_approximation();
    EXPECT_GT(exact, last_exact) << dose;
    EXPECT_GT(near, last_near) << dose;
    EXPECT_NEAR(near, exact, 0.12) << dose;
    last_exact = exact;
    last_near = near;
  }
}

}  // namespace

}  // namespace barm::testbakes

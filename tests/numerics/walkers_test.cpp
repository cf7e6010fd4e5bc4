#include "numerics/walkers.h"

#include <gmock/gmock.h>

#include <cmath>

#include "numerics/random.h"

namespace barm::numerics {
namespace {

struct Moments {
  std::vector<double> mean, variance;
};

Moments moments_of(const Walk& walk, std::size_t d) {
  Moments m{std::vector<double>(d, 0.0), std::vector<double>(d, 0.0)};
  const std::size_t rows = walk.points.size() / d;
  for (std::size_t i = 0; i < rows; ++i) {
    for (std::size_t j = 0; j < d; ++j) m.mean[j] += walk.points[i * d + j] / double(rows);
  }
  for (std::size_t i = 0; i < rows; ++i) {
    for (std::size_t j = 0; j < d; ++j)
      m.variance[j] += std::pow(walk.points[i * d + j] - m.mean[j], 2) / double(rows);
  }
  return m;
}

// A normal prior and normal readings of two sums of the unknowns: the posterior is known.
//     y1 = x1 + x2 = 1 +- 0.1,  y2 = x1 - x2 = 0.4 +- 0.5,  x3 not read
// posterior of s = x1 + x2 (prior variance 2): mean 2/2.01, variance 2 0.01/2.01
// posterior of d = x1 - x2: mean 0.4 2/2.25, variance 2 0.25/2.25
TEST(Walkers, FindANormalPosteriorThatIsKnown) {
  const auto ln = [](std::span<const double> x) {
    std::vector<double> out;
    for (std::size_t i = 0; i < x.size(); i += 3) {
      out.push_back(-0.5 * std::pow((x[i] + x[i + 1] - 1) / 0.1, 2) -
                    0.5 * std::pow((x[i] - x[i + 1] - 0.4) / 0.5, 2));
    }
    return Result<std::vector<double>>(out);
  };
  Random random(1);
  std::vector<double> start(std::size_t{3} * 104);
  for (double& x : start) x = random.normal();
  const WalkOptions options{
      .dimension = 3, .spoken_of = 2, .rounds = 600, .forgotten = 200, .seed = 2};
  const auto walk = numerics::walk(ln, start, options);
  ASSERT_TRUE(walk.has_value());
  const Moments m = moments_of(*walk, 3);
  const double s = 2 / 2.01;
  const double d = 0.8 / 2.25;
  const double sum_variance = 0.02 / 2.01;
  const double difference_variance = 0.5 / 2.25;
  // Means of `effective` draws are off by less than 4 sd but once in ten thousand runs.
  const double sd = std::sqrt((sum_variance + difference_variance) / 4);
  const double allowed = 4 * sd / std::sqrt(walk->effective);
  EXPECT_NEAR(m.mean[0], (s + d) / 2, allowed);
  EXPECT_NEAR(m.mean[1], (s - d) / 2, allowed);
  EXPECT_NEAR(m.mean[2], 0, 0.15);
  EXPECT_NEAR(m.variance[0] / (sd * sd), 1, 4 * std::sqrt(2 / walk->effective));
  EXPECT_NEAR(m.variance[2], 1, 0.2);
  EXPECT_GT(walk->effective, 500);
}

TEST(Walkers, HandOnWhatTheLikelihoodSays) {
  const auto ln = [](std::span<const double>) -> Result<std::vector<double>> {
    return failure(ErrorCode::cancelled, "", "stopped");
  };
  const auto walk = numerics::walk(ln, std::vector<double>(32, 0.0), {.dimension = 2});
  ASSERT_FALSE(walk.has_value());
  EXPECT_EQ(walk.error().code, ErrorCode::cancelled);
}

// x_t = phi x_(t-1) + e has the correlation time (1 + phi)/(1 - phi).
TEST(CorrelationTime, IsThatOfAnAutoregression) {
  constexpr double phi = 0.8;
  constexpr std::size_t walkers = 50;
  constexpr std::size_t steps = 2000;
  Random random(4);
  std::vector<double> x(walkers);
  std::vector<double> chains;
  for (std::size_t t = 0; t < steps; ++t) {
    for (double& own : x) {
      own = phi * own + random.normal();
      chains.push_back(own);
    }
  }
  EXPECT_NEAR(correlation_time(chains, walkers), (1 + phi) / (1 - phi), 0.6);
}

// Flocks that begin on either of two far hills stay there: their means lie apart, and that is told.
TEST(Walkers, FlocksThatHaveNotMetAreToldFromThoseThatHave) {
  const auto hills = [](double apart) {
    return [apart](std::span<const double> x) {
      std::vector<double> out;
      for (const double one : x)
        out.push_back(std::log(std::exp(-50 * std::pow(one - apart, 2)) +
                               std::exp(-50 * std::pow(one + apart, 2)) + 1e-300));
      return Result<std::vector<double>>(out);
    };
  };
  const auto r_hat = [&](double apart) {
    // Of each half of 32 walkers the first two flocks of eight begin on the one hill.
    std::vector<double> start;
    numerics::Random random(3, 3);
    for (int k = 0; k < 64; ++k)
      start.push_back((k % 32 < 16 ? apart : -apart) + 0.05 * random.normal());
    return walk(hills(apart), start, {.dimension = 1, .spoken_of = 1, .rounds = 60})->r_hat;
  };
  EXPECT_LT(r_hat(0), 1.05);
  EXPECT_GT(r_hat(2), 2);
}

}  // namespace
}  // namespace barm::numerics

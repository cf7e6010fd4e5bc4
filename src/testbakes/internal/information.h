#pragma once
// How much readings are expected to tell about which of some hypotheses holds.
#include <Eigen/Dense>
#include <cstdint>
#include <vector>

namespace barm::testbakes::internal {

/// Readings under one hypothesis: normal with this mean and covariance (what is not known and the
/// errors of reading together).
struct Foretold {
  double weight = 0;  ///< chance of the hypothesis
  Eigen::VectorXd mean;
  Eigen::MatrixXd covariance;
};

/// Expected information about which group a hypothesis belongs to, in nats,
///     I = H(G) - E_y H(G | y),
/// by `draws` sets of readings drawn from the mixture. `group` has a number for each hypothesis;
/// all different asks about the hypotheses themselves. Never below 0. Checked against: integration
/// and brute force in tests/testbakes/information_test.cpp.
[[nodiscard]] double expected_information(const std::vector<Foretold>& hypotheses,
                                          const std::vector<int>& group,
                                          int draws,
                                          std::uint64_t seed);

/// -sum w ln w of the groups.
[[nodiscard]] double uncertainty(const std::vector<double>& weights, const std::vector<int>& group);

}  // namespace barm::testbakes::internal

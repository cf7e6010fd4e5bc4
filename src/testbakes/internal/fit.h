#pragma once
// Fitting one hypothesis to the jars: the most probable unknowns, their covariance, the evidence.
#include <Eigen/Dense>
#include <vector>

#include "testbakes/joint_model.h"

namespace barm::testbakes::internal {

/// The looks of all jars with the factor of their errors' covariance, jar after jar.
class Errors {
 public:
  /// `shape`: sd of straying; `suspect`: readings taken as a hundred times less exact.
  Errors(const std::vector<Watched>& jars, double shape, const std::vector<bool>& suspect = {});

  /// L^-1 (y - f) for predictions f.
  [[nodiscard]] Eigen::VectorXd whitened(const std::vector<double>& predicted) const;

  /// L^-1 J, J row by row.
  [[nodiscard]] Eigen::MatrixXd whitened_slopes(const std::vector<double>& slopes,
                                                std::size_t columns) const;

  /// sum of ln L_ii
  [[nodiscard]] double log_volume() const { return log_volume_; }

  /// sd of each look by itself.
  [[nodiscard]] const std::vector<double>& sd() const { return sd_; }

  [[nodiscard]] const std::vector<double>& looks() const { return y_; }

 private:
  std::vector<double> y_, sd_;
  std::vector<Eigen::MatrixXd> factor_;  // one for each jar
  double log_volume_ = 0;
};

struct Fit {
  Eigen::VectorXd z;
  Eigen::MatrixXd covariance;
  double misfit = 0;  ///< |r|^2 + |z|^2, r the whitened misses
  double log_evidence = 0;
  std::vector<double> predicted;
};

/// Levenberg & Marquardt from `start`; where that fits badly, from the nearest of some draws of the
/// prior too, and the better of them. Errors: as JointModel::predict.
[[nodiscard]] Result<Fit> fit(const JointModel& model,
                              Hypothesis acting,
                              const Errors& errors,
                              const Eigen::VectorXd& start);

}  // namespace barm::testbakes::internal

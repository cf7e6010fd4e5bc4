#pragma once
// Least squares by Levenberg and Marquardt's method with automatic derivatives: the one path by
// which anything is fitted here, and by which the certified sets are.
#include <ceres/ceres.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>
#include <vector>

namespace barm::estimation::internal {

struct FitOptions {
  int most_steps = 50;
  double enough = 1e-8;  ///< relative change of the cost at which to stop
};

struct Fit {
  std::vector<double> at;        ///< the best values
  std::vector<double> residual;  ///< there
  std::vector<double> jacobian;  ///< residuals x values, by rows
  double cost = 0;               ///< half the sum of squares
  int steps = 0;
  bool settled = false;
};

// The derivatives of so many values are worked out in one pass.
inline constexpr int values_a_pass = 16;

/// A function of one block of values as Ceres calls it.
template <class Function>
struct OneBlock {
  const Function* f;

  template <class T>
  bool operator()(T const* const* values, T* out) const {
    return (*f)(values[0], out);
  }
};

/// Minimises half the sum of the squares of f:  bool f(const T* values, T* residuals), T double or
/// a number with derivatives; false where it cannot be worked out. Where `start` itself cannot, the
/// fit is not settled and has no Jacobian.
template <class Function>
Fit least_squares(const Function& f,
                  std::size_t residuals,
                  std::vector<double> start,
                  const FitOptions& options = {}) {
  using Functor = OneBlock<Function>;
  Fit fit;
  fit.at = std::move(start);
  auto* cost = new ceres::DynamicAutoDiffCostFunction<Functor, values_a_pass>(new Functor{&f});
  cost->AddParameterBlock(static_cast<int>(fit.at.size()));
  cost->SetNumResiduals(static_cast<int>(residuals));
  ceres::Problem problem;  // owns the cost
  problem.AddResidualBlock(cost, nullptr, fit.at.data());
  ceres::Solver::Options solver;
  solver.linear_solver_type = ceres::DENSE_QR;
  solver.max_num_iterations = options.most_steps;
  solver.function_tolerance = options.enough;
  solver.gradient_tolerance = 1e-14;
  solver.parameter_tolerance = 1e-14;
  solver.logging_type = ceres::SILENT;
  solver.num_threads = 1;
  ceres::Solver::Summary summary;
  ceres::Solve(solver, &problem, &summary);
  fit.settled = summary.termination_type == ceres::CONVERGENCE;
  fit.steps = static_cast<int>(summary.iterations.size());
  fit.residual.resize(residuals);
  std::vector<double> jacobian(residuals * fit.at.size());
  const double* values[] = {fit.at.data()};
  double* rows[] = {jacobian.data()};
  if (!cost->Evaluate(values, fit.residual.data(), rows)) {
    fit.settled = false;
    return fit;
  }
  fit.jacobian = std::move(jacobian);
  for (const double r : fit.residual) fit.cost += 0.5 * r * r;
  return fit;
}

}  // namespace barm::estimation::internal

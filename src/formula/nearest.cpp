#include "formula/internal/nearest.h"

#include <nlopt.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace barm::formula::internal {

namespace {

// Ours: a miss of a ten-millionth of the whole is no miss on any scale in a bakery.
constexpr double met = 1e-7;
constexpr int most_evaluations = 1000;

double left_over(const Equation& equation, const double* y) {
  double sum = -equation.value;
  for (std::size_t j = 0; j < equation.coefficient.size(); ++j)
    sum += equation.coefficient[j] * y[j];
  return sum;
}

double largest_miss(const Nearest& problem, const std::vector<double>& y) {
  double miss = 0;
  for (const Equation& equation : problem.equations) {
    miss = std::max(miss, std::abs(left_over(equation, y.data())));
  }
  return miss;
}

/// |y - plan|^2 and its gradient.
double distance(unsigned n, const double* y, double* gradient, void* data) {
  const auto& problem = *static_cast<const Nearest*>(data);
  double sum = 0;
  for (unsigned j = 0; j < n; ++j) {
    const double d = y[j] - problem.plan[j];
    sum += d * d;
    if (gradient != nullptr) gradient[j] = 2 * d;
  }
  return sum;
}

double equality(unsigned n, const double* y, double* gradient, void* data) {
  const auto& equation = *static_cast<const Equation*>(data);
  if (gradient != nullptr) std::copy_n(equation.coefficient.begin(), n, gradient);
  return left_over(equation, y);
}

/// |A y - b|^2 with a breath of |y - plan|^2, so that what the equations leave open stays at the
/// plan.
double misses(unsigned n, const double* y, double* gradient, void* data) {
  constexpr double breath = 1e-10;
  const auto& problem = *static_cast<const Nearest*>(data);
  double sum = breath * distance(n, y, gradient, data);
  if (gradient != nullptr) {
    for (unsigned j = 0; j < n; ++j) gradient[j] *= breath;
  }
  for (const Equation& equation : problem.equations) {
    const double miss = left_over(equation, y);
    sum += miss * miss;
    if (gradient == nullptr) continue;
    for (unsigned j = 0; j < n; ++j) gradient[j] += 2 * miss * equation.coefficient[j];
  }
  return sum;
}

using Optimizer = std::unique_ptr<nlopt_opt_s, decltype(&nlopt_destroy)>;

Optimizer slsqp(const Nearest& problem) {
  const auto n = static_cast<unsigned>(problem.plan.size());
  Optimizer optimizer(nlopt_create(NLOPT_LD_SLSQP, n), nlopt_destroy);
  nlopt_set_lower_bounds(optimizer.get(), problem.least.data());
  nlopt_set_upper_bounds(optimizer.get(), problem.most.data());
  nlopt_set_xtol_rel(optimizer.get(), 1e-14);
  nlopt_set_ftol_abs(optimizer.get(), 1e-22);
  nlopt_set_maxeval(optimizer.get(), most_evaluations);
  return optimizer;
}

std::vector<double> start(const Nearest& problem) {
  std::vector<double> y = problem.plan;
  for (std::size_t j = 0; j < y.size(); ++j)
    y[j] = std::clamp(y[j], problem.least[j], problem.most[j]);
  return y;
}

/// SLSQP's own verdict is not asked: it calls rounding a failure. The misses of what it found
/// decide.
Found run(const Optimizer& optimizer, const Nearest& problem) {
  Found found{start(problem), 0};
  double value = 0;
  nlopt_optimize(optimizer.get(), found.y.data(), &value);
  found.residual = largest_miss(problem, found.y);
  return found;
}

Found meeting(Nearest problem, std::vector<Equation> independent) {
  const Optimizer optimizer = slsqp(problem);
  nlopt_set_min_objective(optimizer.get(), distance, &problem);
  for (Equation& equation : independent) {
    nlopt_add_equality_constraint(optimizer.get(), equality, &equation, 1e-13);
  }
  return run(optimizer, problem);
}

Found missing_least(Nearest problem) {
  const Optimizer optimizer = slsqp(problem);
  nlopt_set_min_objective(optimizer.get(), misses, &problem);
  return run(optimizer, problem);
}

/// Rows that are not combinations of the rows before them (Gram and Schmidt).
std::vector<Equation> independent(const std::vector<Equation>& equations) {
  constexpr double parallel = 1e-9;
  std::vector<std::vector<double>> basis;
  std::vector<Equation> kept;
  for (const Equation& equation : equations) {
    std::vector<double> rest = equation.coefficient;
    const auto dot = [](const std::vector<double>& a, const std::vector<double>& b) {
      double sum = 0;
      for (std::size_t j = 0; j < a.size(); ++j) sum += a[j] * b[j];
      return sum;
    };
    const double length = std::sqrt(dot(rest, rest));
    for (const auto& direction : basis) {
      const double along = dot(rest, direction);
      for (std::size_t j = 0; j < rest.size(); ++j) rest[j] -= along * direction[j];
    }
    const double remains = std::sqrt(dot(rest, rest));
    if (!(remains > parallel * std::max(length, 1e-6))) continue;
    for (double& x : rest) x /= remains;
    basis.push_back(std::move(rest));
    kept.push_back(equation);
  }
  return kept;
}

}  // namespace

Found nearest(const Nearest& problem) {
  Found exact = meeting(problem, independent(problem.equations));
  if (exact.residual <= met) return exact;
  Found closest = missing_least(problem);
  return closest.residual < exact.residual ? closest : exact;
}

}  // namespace barm::formula::internal

#pragma once
// The same compiled equations by other people's solvers: hours to the target, infinite when never.
#include <boost/numeric/odeint/algebra/array_algebra.hpp>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/dense_output_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <limits>

#include "bench/standard_forecast.h"
#include "forecast/many.h"
#include "kinetics/system.h"

#ifdef BARM_BENCH_SUNDIALS
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sundials/sundials_nonlinearsolver.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <sunnonlinsol/sunnonlinsol_fixedpoint.h>

#include <stdexcept>
#include <string>
#endif

namespace barm::bench {

/// Dormand-Prince with dense output of Boost.odeint; the root inside a step by bisection.
class Odeint {
 public:
  [[nodiscard]] double hours(const forecast::Case& one, double tolerance) const {
    namespace odeint = boost::numeric::odeint;
    using State = kinetics::StateOf<double>;
    const auto terms = kinetics::terms(one.dough, one.parameters, celsius, celsius);
    const kinetics::System<double> system(terms, kinetics::present(one.dough));
    const auto rhs = [&](const State& y, State& dy, double t) { system(t, y, dy); };
    auto stepper =
        odeint::make_dense_output(1e-3 * tolerance, tolerance, odeint::runge_kutta_dopri5<State>());
    stepper.initialize(kinetics::at_mixing(one.dough, one.parameters), 0.0, 0.1);
    while (stepper.current_time() < horizon) {
      auto [before, after] = stepper.do_step(rhs);
      if (system.rise(stepper.current_state()) < target) continue;
      State y;
      while (after - before > 1e-9) {
        const double middle = 0.5 * (before + after);
        stepper.calc_state(middle, y);
        (system.rise(y) < target ? before : after) = middle;
      }
      return after <= horizon ? after : forecast::Passed::never;
    }
    return forecast::Passed::never;
  }
};

#ifdef BARM_BENCH_SUNDIALS
/// CVODE of SUNDIALS with its own root finding, its memory kept from run to run: BDF with a dense
/// Jacobian by differences, or Adams with fixed-point iteration.
class Cvode {
 public:
  enum class Method { bdf, adams };

  explicit Cvode(Method method) {
    check(SUNContext_Create(nullptr, &context_), "context");
    y_ = N_VNew_Serial(kinetics::state_count, context_);
    memory_ = CVodeCreate(method == Method::bdf ? CV_BDF : CV_ADAMS, context_);
    check(CVodeInit(memory_, rhs, 0, y_), "init");
    check(CVodeRootInit(memory_, 1, short_of_target), "roots");
    check(CVodeSetUserData(memory_, this), "data");
    check(CVodeSStolerances(memory_, 1e-6, 1e-9), "tolerances");
    check(CVodeSetMaxNumSteps(memory_, 1000000), "steps");
    if (method == Method::bdf) {
      matrix_ = SUNDenseMatrix(kinetics::state_count, kinetics::state_count, context_);
      linear_ = SUNLinSol_Dense(y_, matrix_, context_);
      check(CVodeSetLinearSolver(memory_, linear_, matrix_), "linear solver");
    } else {
      fixed_point_ = SUNNonlinSol_FixedPoint(y_, 0, context_);
      check(CVodeSetNonlinearSolver(memory_, fixed_point_), "fixed point");
    }
  }

  Cvode(const Cvode&) = delete;
  Cvode& operator=(const Cvode&) = delete;

  ~Cvode() {
    CVodeFree(&memory_);
    if (linear_ != nullptr) SUNLinSolFree(linear_);
    if (matrix_ != nullptr) SUNMatDestroy(matrix_);
    if (fixed_point_ != nullptr) SUNNonlinSolFree(fixed_point_);
    N_VDestroy(y_);
    SUNContext_Free(&context_);
  }

  [[nodiscard]] double hours(const forecast::Case& one, double tolerance) {
    const auto terms = kinetics::terms(one.dough, one.parameters, celsius, celsius);
    const kinetics::System<double> system(terms, kinetics::present(one.dough));
    system_ = &system;
    state(y_) = kinetics::at_mixing(one.dough, one.parameters);
    check(CVodeReInit(memory_, 0, y_), "reinit");
    check(CVodeSStolerances(memory_, tolerance, 1e-3 * tolerance), "tolerances");
    double t = 0;
    const int flag = CVode(memory_, horizon, y_, &t, CV_NORMAL);
    check(flag, "solve");
    return flag == CV_ROOT_RETURN ? t : forecast::Passed::never;
  }

 private:
  using State = kinetics::StateOf<double>;

  static State& state(N_Vector v) { return *reinterpret_cast<State*>(N_VGetArrayPointer(v)); }

  static int rhs(double t, N_Vector y, N_Vector dy, void* self) {
    (*static_cast<Cvode*>(self)->system_)(t, state(y), state(dy));
    return 0;
  }

  static int short_of_target(double, N_Vector y, double* g, void* self) {
    *g = static_cast<Cvode*>(self)->system_->rise(state(y)) - target;
    return 0;
  }

  static void check(int flag, const char* what) {
    if (flag < 0)
      throw std::runtime_error("CVODE: " + std::string(what) + " " + std::to_string(flag));
  }

  SUNContext context_ = nullptr;
  N_Vector y_ = nullptr;
  void* memory_ = nullptr;
  SUNMatrix matrix_ = nullptr;
  SUNLinearSolver linear_ = nullptr;
  SUNNonlinearSolver fixed_point_ = nullptr;
  const kinetics::System<double>* system_ = nullptr;
};
#endif

}  // namespace barm::bench

// Work against precision: time for a standard forecast against the error of its time to double, by
// every solver on the same compiled equations, over draws from the whole prior, on one thread.
//
//   work_precision_bench [DRAWS] > work_precision.csv        a summary goes to the terminal
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <string>
#include <vector>

#include "bench/other_solvers.h"

namespace barm::bench {

namespace {

using forecast::Case;
using forecast::Passed;
using Hours = std::vector<double>;
using Solve = std::function<Hours(const std::vector<Case>&, double tolerance)>;

struct Row {
  std::string solver;
  double tolerance, microseconds, rms_minutes, worst_minutes;
  int other_answer;  // ready where the reference never is, or the other way round
};

std::vector<Case> draws(int count) {
  std::vector<Case> cases;
  for (int i = 0; i < count; ++i) {
    numerics::Random random(5, static_cast<std::uint64_t>(i));
    cases.push_back(
        {standard_dough(), kinetics::drawn(random), Temperature::from_celsius(celsius)});
  }
  return cases;
}

Hours scalar(const std::vector<Case>& cases, double tolerance) {
  auto proving = standard_proving();
  proving.accuracy.relative = tolerance;
  proving.accuracy.absolute = 1e-3 * tolerance;
  proving.accuracy.first_step = 0.5;
  proving.accuracy.most_steps = 1000000;
  Hours hours;
  for (const Case& one : cases) {
    const auto course = forecast::run(one.dough, one.parameters, proving);
    hours.push_back(course->ready ? course->ready->in(hour) : Passed::never);
  }
  return hours;
}

Solve lanes(forecast::Precision precision, numerics::Instructions instructions) {
  return [=](const std::vector<Case>& cases, double tolerance) {
    forecast::ManyOptions options;
    options.proving.stop_at_target = true;
    options.proving.horizon = horizon * hour;
    options.proving.accuracy.relative = tolerance;
    options.proving.accuracy.absolute = 1e-3 * tolerance;
    options.precision = precision;
    options.instructions = instructions;
    options.threads = 1;
    const auto many = forecast::foresee_many(cases, options);
    Hours hours;
    for (const Passed& passed : many.value().passed) hours.push_back(passed.ready);
    return hours;
  };
}

template <class Solver>
Solve one_by_one(Solver& solver) {
  return [&solver](const std::vector<Case>& cases, double tolerance) {
    Hours hours;
    for (const Case& one : cases) hours.push_back(solver.hours(one, tolerance));
    return hours;
  };
}

Row measured(const std::string& name,
             const Solve& solve,
             double tolerance,
             const std::vector<Case>& cases,
             const Hours& reference) {
  using Clock = std::chrono::steady_clock;
  std::vector<double> seconds;
  Hours hours;
  for (int repeat = 0; repeat < 3; ++repeat) {
    const auto begin = Clock::now();
    hours = solve(cases, tolerance);
    seconds.push_back(std::chrono::duration<double>(Clock::now() - begin).count());
  }
  std::sort(seconds.begin(), seconds.end());
  const auto count = static_cast<double>(cases.size());
  Row row{name, tolerance, 1e6 * seconds[1] / count, 0, 0, 0};
  for (std::size_t i = 0; i < cases.size(); ++i) {
    if ((hours[i] < Passed::never) != (reference[i] < Passed::never)) {
      ++row.other_answer;
    } else if (hours[i] < Passed::never) {
      const double minutes = 60 * std::abs(hours[i] - reference[i]);
      row.rms_minutes += minutes * minutes / count;
      row.worst_minutes = std::max(row.worst_minutes, minutes);
    }
  }
  row.rms_minutes = std::sqrt(row.rms_minutes);
  return row;
}

// Microseconds at a given error, by straight lines in the logarithms; 0 outside what was measured.
double time_at(const std::vector<Row>& rows,
               const std::string& solver,
               double Row::* error,
               double wanted) {
  const Row* before = nullptr;
  for (const Row& row : rows) {
    if (row.solver != solver) continue;
    if (before != nullptr && (before->*error - wanted) * (row.*error - wanted) <= 0) {
      const double part =
          std::log(wanted / (before->*error)) / std::log(row.*error / (before->*error));
      return before->microseconds * std::pow(row.microseconds / before->microseconds, part);
    }
    before = &row;
  }
  return 0;
}

struct Level {
  const char* name;
  double Row::* error;
  double minutes;
};

constexpr Level levels[] = {{"rms", &Row::rms_minutes, 0.01},
                            {"rms", &Row::rms_minutes, 0.03},
                            {"worst", &Row::worst_minutes, 0.3},
                            {"worst", &Row::worst_minutes, 1.0}};

void compare(const std::vector<Row>& rows, const std::vector<std::string>& solvers) {
  for (const Level& level : levels) {
    const double ours = time_at(rows, "scalar", level.error, level.minutes);
    std::fprintf(stderr,
                 "\nmicroseconds a forecast at a %s error of %g min (scalar = 1):\n",
                 level.name,
                 level.minutes);
    for (const std::string& solver : solvers) {
      const double time = time_at(rows, solver, level.error, level.minutes);
      if (time > 0 && ours > 0)
        std::fprintf(stderr, "  %-22s %8.2f   %6.2f\n", solver.c_str(), time, time / ours);
    }
  }
}

int work_precision(int count) {
  const auto cases = draws(count);
  const Hours reference = scalar(cases, 1e-11);
  std::vector<std::pair<std::string, Solve>> solvers;
  using forecast::Precision;
  using numerics::Instructions;
  solvers.emplace_back("scalar", scalar);
  if (numerics::best_instructions() == Instructions::avx2) {
    solvers.emplace_back("lanes double avx2", lanes(Precision::full, Instructions::avx2));
    solvers.emplace_back("lanes single avx2", lanes(Precision::single, Instructions::avx2));
  }
  solvers.emplace_back("lanes double plain", lanes(Precision::full, Instructions::plain));
  solvers.emplace_back("lanes single plain", lanes(Precision::single, Instructions::plain));
  Odeint odeint;
  solvers.emplace_back("odeint dopri5", one_by_one(odeint));
#ifdef BARM_BENCH_SUNDIALS
  Cvode bdf(Cvode::Method::bdf);
  Cvode adams(Cvode::Method::adams);
  solvers.emplace_back("CVODE BDF", one_by_one(bdf));
  solvers.emplace_back("CVODE Adams", one_by_one(adams));
#endif
  std::vector<Row> rows;
  std::vector<std::string> names;
  std::printf("solver,relative tolerance,microseconds,rms minutes,worst minutes,other answer\n");
  for (const auto& [name, solve] : solvers) {
    names.push_back(name);
    for (double tolerance = 1e-3; tolerance > 0.9e-8; tolerance *= std::sqrt(0.1)) {
      // 24 binary digits hold no smaller error than this.
      if (name.starts_with("lanes single") && tolerance < 2e-7) break;
      rows.push_back(measured(name, solve, tolerance, cases, reference));
      const Row& row = rows.back();
      std::printf("%s,%.2g,%.3f,%.3g,%.3g,%d\n",
                  row.solver.c_str(),
                  row.tolerance,
                  row.microseconds,
                  row.rms_minutes,
                  row.worst_minutes,
                  row.other_answer);
      std::fflush(stdout);
    }
  }
  compare(rows, names);
  return 0;
}

}  // namespace

}  // namespace barm::bench

int main(int argc, char** argv) {
  return barm::bench::work_precision(argc > 1 ? std::atoi(argv[1]) : 2000);
}

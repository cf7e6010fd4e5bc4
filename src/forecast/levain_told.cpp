#include "forecast/levain_told.h"

#include <fmt/format.h>

#include <cmath>

#include "base/require.h"
#include "forecast/levain.h"

namespace barm::forecast {

namespace {

using kinetics::JointPrior;
using kinetics::parameter_count;
using P = kinetics::Parameter;
using Direction = std::array<double, parameter_count>;

constexpr Time longest_watched = 48.0 * hour;
constexpr double doubled_astray =
    0.15;                             // in ln: reading the jar, and what starter and flour differ
constexpr double rose_astray = 0.15;  // in ln of the rise above the start: the same
constexpr double nudge = 1e-3;        // of a doubt in ln, for slopes
constexpr int newton_rounds = 4;

// What a levain's rise in its jar speaks of; the rest makes no difference to a plain levain.
constexpr P spoken_of[] = {P::wild_growth,
                           P::wild_gas_of_growth,
                           P::wild_gas_of_upkeep,
                           P::wild_cell_mass,
                           P::bacteria_growth,
                           P::bacteria_upkeep,
                           P::lag_scale,
                           P::free_sugar,
                           P::maltose_pool,
                           P::amylase,
                           P::void_at_start,
                           P::rise_limit,
                           P::fading,
                           P::fading_by_acid,
                           P::pace};

enum class Told { doubled_in, rose };

class LevainJar {
 public:
  LevainJar(const formula::Levain& levain, larder::Composition starter, larder::Composition flour)
      : levain_(levain), starter_(starter), flour_(flour) {}

  // ln of what the model has the jar show.
  [[nodiscard]] Result<double> shows(Told what, const kinetics::Parameters<double>& p) const {
    const auto course = levain_course(levain_, starter_, flour_, p, longest_watched);
    if (!course) return failure(course);
    if (what == Told::rose) return std::log(std::max(1e-3, course->largest_rise - 1));
    if (!course->ready) {
      return failure(ErrorCode::bad_input,
                     levain_.place,
                     fmt::format("a levain of '{}' rises {:.1f} times at most by the model, so "
                                 "doubled_in tells it nothing; leave it out, or write how far it "
                                 "rose: rose = \"{:.1f} times\"",
                                 levain_.flour.name,
                                 course->largest_rise,
                                 course->largest_rise));
    }
    return std::log(course->ready->in(hour));
  }

 private:
  const formula::Levain& levain_;
  larder::Composition starter_, flour_;
};

kinetics::Parameters<double> parameters_at_point(const JointPrior& prior, const Direction& z) {
  kinetics::Parameters<double> p = kinetics::book();
  for (std::size_t i = 0; i < parameter_count; ++i) {
    double ln = prior.centre[i];
    for (std::size_t j = 0; j <= i; ++j) ln += prior.factor[i][j] * z[j];
    p.value[i] *= std::exp(ln);
  }
  return p;
}

// dd/dz = F' dd/dx, x = ln of the parameters.
Result<Direction> slope_of(const LevainJar& jar,
                           Told what,
                           const JointPrior& prior,
                           const kinetics::Parameters<double>& p,
                           double shown) {
  Direction by_z{};
  for (const P parameter : spoken_of) {
    const auto i = static_cast<std::size_t>(parameter);
    kinetics::Parameters<double> moved = p;
    moved[parameter] *= std::exp(nudge);
    const auto then = jar.shows(what, moved);
    if (!then) return failure(then);
    const double by_x = (*then - shown) / nudge;
    for (std::size_t j = 0; j <= i; ++j) by_z[j] += prior.factor[i][j] * by_x;
  }
  return by_z;
}

double inner(const Direction& a, const Direction& b) {
  double sum = 0;
  for (std::size_t i = 0; i < parameter_count; ++i) sum += a[i] * b[i];
  return sum;
}

// Cholesky; the covariance keeps its full rank, for something is left of every doubt.
void factorize(std::array<Direction, parameter_count>& a) {
  for (std::size_t i = 0; i < parameter_count; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = a[i][j];
      for (std::size_t k = 0; k < j; ++k) sum -= a[i][k] * a[j][k];
      if (i == j) {
        require(sum > 0, "what a levain tells leaves some doubt");
        a[i][i] = std::sqrt(sum);
      } else {
        a[i][j] = sum / a[j][j];
      }
    }
    for (std::size_t j = i + 1; j < parameter_count; ++j) a[i][j] = 0;
  }
}

// The prior about the likeliest z, with what is left of its doubt.
JointPrior narrowed(const JointPrior& prior,
                    const Direction& z,
                    const Direction& slope,
                    double astray) {
  JointPrior now;
  Direction along{};  // F g
  for (std::size_t i = 0; i < parameter_count; ++i) {
    now.centre[i] = prior.centre[i];
    for (std::size_t j = 0; j <= i; ++j) {
      now.centre[i] += prior.factor[i][j] * z[j];
      along[i] += prior.factor[i][j] * slope[j];
    }
  }
  const double all = inner(slope, slope) + astray * astray;
  for (std::size_t i = 0; i < parameter_count; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double before = 0;
      for (std::size_t k = 0; k <= j; ++k) before += prior.factor[i][k] * prior.factor[j][k];
      now.factor[i][j] = now.factor[j][i] = before - along[i] * along[j] / all;
    }
  }
  factorize(now.factor);
  return now;
}

Result<JointPrior> taught(
    const LevainJar& jar, Told what, double told, double astray, const JointPrior& prior) {
  Direction z{};
  Direction g{};
  for (int round = 0; round < newton_rounds; ++round) {
    const auto p = parameters_at_point(prior, z);
    const auto shown = jar.shows(what, p);
    if (!shown) return failure(shown);
    const auto now = slope_of(jar, what, prior, p, *shown);
    if (!now) return failure(now);
    g = *now;
    const double off = std::log(told) - *shown + inner(g, z);
    for (std::size_t j = 0; j < parameter_count; ++j)
      z[j] = g[j] * off / (inner(g, g) + astray * astray);
  }
  return narrowed(prior, z, g, astray);
}

}  // namespace

Result<JointPrior> told_by_levain(const formula::Levain& levain, const JointPrior& prior) {
  if (!levain.doubled_in && !levain.rose) return prior;
  const auto starter = larder::typical(levain.starter);
  if (!starter) return failure(starter);
  const auto flour = larder::typical(levain.flour);
  if (!flour) return failure(flour);
  const LevainJar jar(levain, *starter, *flour);
  Result<JointPrior> now = prior;
  if (levain.doubled_in)
    now = taught(jar, Told::doubled_in, levain.doubled_in->in(hour), doubled_astray, *now);
  if (now && levain.rose) now = taught(jar, Told::rose, *levain.rose - 1, rose_astray, *now);
  return now;
}

}  // namespace barm::forecast

#pragma once
// The sample in its jar, run for any number type, and looked at at given moments.
#include <algorithm>
#include <vector>

#include "estimation/internal/world.h"
#include "kinetics/system.h"
#include "kinetics/terms_of.h"
#include "numerics/sensitive_dormand_prince.h"

namespace barm::estimation::internal {

/// The sample at a moment.
template <class T>
struct Look {
  T rise{1.0};  ///< volume over the volume at mixing
  T ph{6.0};
  double speed = 0;  ///< d rise / dt [1/h]
};

inline constexpr double warmth_step = 0.25;  // [K] for the slope of the terms with temperature

/// The terms at a temperature that may carry derivatives: their slope with it by a central
/// difference over half a degree.
template <class T>
kinetics::Terms<T> terms_at(const kinetics::DoughOf<T>& dough,
                            const kinetics::Parameters<T>& parameters,
                            double celsius,
                            double start_celsius,
                            const T& warmer,
                            double surface) {
  const double by = numerics::value_of(warmer);
  kinetics::Terms<T> terms =
      kinetics::terms(dough, parameters, celsius + by, start_celsius + by, {surface});
  if constexpr (!std::is_same_v<T, double>) {
    kinetics::Parameters<double> plain;
    for (std::size_t i = 0; i < plain.value.size(); ++i)
      plain.value[i] = numerics::value_of(parameters.value[i]);
    const kinetics::Dough plain_dough = plain_of(dough);
    const auto at = [&](double t) {
      return kinetics::terms(plain_dough, plain, celsius + t, start_celsius + t, {surface});
    };
    const kinetics::Terms<double> more = at(by + warmth_step);
    const kinetics::Terms<double> less = at(by - warmth_step);
    constexpr std::size_t numbers = sizeof(more) / sizeof(double);
    static_assert(sizeof(terms) == numbers * sizeof(T));
    const auto* up = reinterpret_cast<const double*>(&more);
    const auto* down = reinterpret_cast<const double*>(&less);
    auto* to = reinterpret_cast<T*>(&terms);
    for (std::size_t i = 0; i < numbers; ++i)
      to[i] += (warmer - by) * ((up[i] - down[i]) / (2 * warmth_step));
  }
  return terms;
}

/// Looks at the sample at ascending moments [model hours], its temperature following the track,
/// whose hours are hours on the clock. False when the run does not settle.
template <class T>
bool run_sample(const World<T>& world,
                const Sample& sample,
                double stretch,
                const std::vector<T>& moments,
                const numerics::Accuracy& accuracy,
                std::vector<Look<T>>& looks) {
  using State = kinetics::StateOf<T>;
  const auto segments = sample.track.segments();
  const auto terms_in = [&](const heat::Segment& segment) {
    return terms_at(world.dough,
                    world.parameters,
                    segment.celsius,
                    segments.front().celsius,
                    world.warmer,
                    sample.surface);
  };
  kinetics::Terms<T> terms = terms_in(segments.front());
  const kinetics::System<T> system(terms, kinetics::present(world.dough));
  const auto rhs = [&](const State& y, State& dy) { system(0.0, y, dy); };
  looks.resize(moments.size());
  State at = kinetics::at_mixing(world.dough, world.parameters);
  double begin = 0;
  std::size_t next = 0;
  for (std::size_t s = 0; s < segments.size() && next < moments.size(); ++s) {
    if (s > 0) terms = terms_in(segments[s]);
    const bool last = s + 1 == segments.size();
    const double end =
        last ? numerics::value_of(moments.back())
             : numerics::value_of(model_hours(world.ln_pace, stretch, segments[s + 1].from));
    std::vector<double> within;
    for (std::size_t i = next; i < moments.size(); ++i) {
      const double moment = numerics::value_of(moments[i]);
      if (!last && moment >= end) break;
      within.push_back(moment - begin);
    }
    const std::size_t looked_at = within.size();
    if (!last) within.push_back(end - begin);
    State after = at;
    const auto visit = [&](std::size_t i, const State& y) {
      if (i == looked_at) {
        after = y;
        return;
      }
      State dy;
      rhs(y, dy);
      const double small = 1e-3 * (1 + std::abs(numerics::value_of(dy[kinetics::gas_held])));
      State later = y;
      later[kinetics::gas_held] += T(small);
      Look<T>& look = looks[next + i];
      look.rise = system.rise(y);
      const double per_gas =
          (numerics::value_of(system.rise(later)) - numerics::value_of(look.rise)) / small;
      look.speed = per_gas * numerics::value_of(dy[kinetics::gas_held]);
      look.ph = y[kinetics::acidity];
      // A moment that carries derivatives itself: the paths are followed along.
      const T ahead = moments[next + i] - numerics::value_of(moments[next + i]);
      look.rise += ahead * look.speed;
      look.ph += ahead * numerics::value_of(dy[kinetics::acidity]);
    };
    if (!within.empty() && !numerics::integrate_to(rhs, at, within, accuracy, visit)) return false;
    at = after;
    next += looked_at;
    begin = end;
  }
  return true;
}

/// The sample's track as its own dough sees it: in model hours, and as much warmer as it may be.
[[nodiscard]] inline heat::Track track_of(const Sample& sample,
                                          const World<double>& world,
                                          double stretch) {
  std::vector<heat::Segment> segments;
  for (const heat::Segment& segment : sample.track.segments()) {
    const double celsius = std::clamp(segment.celsius + world.warmer, -4.9, 59.9);
    segments.push_back({model_hours(world.ln_pace, stretch, segment.from), celsius});
  }
  return heat::Track::of(segments);
}

}  // namespace barm::estimation::internal

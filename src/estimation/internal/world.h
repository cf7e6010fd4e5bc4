#pragma once
// From unknowns z to a dough that can be run, for any number type.
#include "estimation/dough_to_read.h"
#include "kinetics/dough.h"
#include "kinetics/parameter.h"
#include "numerics/generic.h"

namespace barm::estimation::internal {

/// One dough as it might be.
template <class T>
struct World {
  kinetics::Parameters<T> parameters;
  kinetics::DoughOf<T> dough;
  T ln_mark{0.0};  ///< ln of the true height at the start over the one written down
  T drag{1.0};     ///< rise above the start in the jar over the dough's own
  T warmer{0.0};   ///< [K] the sample over its track
  std::array<T, pace_pieces> ln_pace{};
};

/// The mark's error has longer tails than a normal number's: whoever misreads, misreads by a lot.
///     e = z + z^3/10:  1.1 at z = 1, 4.7 at 3, 10 at 4
template <class T>
T long_tailed(const T& z) {
  return z + z * z * z * 0.1;
}

/// A dough in other numbers: DoughOf<T> is nothing but numbers of type T.
template <class To, class From, class Convert>
kinetics::DoughOf<To> converted(const kinetics::DoughOf<From>& dough, const Convert& convert) {
  constexpr std::size_t numbers = sizeof(dough) / sizeof(From);
  kinetics::DoughOf<To> out;
  static_assert(sizeof(out) == numbers * sizeof(To));
  const auto* from = reinterpret_cast<const From*>(&dough);
  auto* to = reinterpret_cast<To*>(&out);
  for (std::size_t i = 0; i < numbers; ++i) to[i] = convert(from[i]);
  return out;
}

template <class T>
kinetics::DoughOf<T> lifted(const kinetics::Dough& dough) {
  return converted<T>(dough, [](double x) { return T(x); });
}

template <class T>
kinetics::Dough plain_of(const kinetics::DoughOf<T>& dough) {
  return converted<double>(dough, [](const T& x) { return numerics::value_of(x); });
}

/// One number of a dough by its name; other_acids and acidity are handled apart.
template <class T>
T* number_of(kinetics::DoughOf<T>& d, Brought brought) {
  switch (brought) {
    case Brought::wild_yeast:
      return &d.wild_yeast;
    case Brought::bacteria:
      return &d.bacteria;
    case Brought::bakers_yeast:
      return &d.bakers_yeast;
    case Brought::lag:
      return &d.lag;
    case Brought::strength:
      return &d.strength;
    case Brought::rise_limit:
      return &d.rise_limit;
    case Brought::ethanol:
      return &d.ethanol;
    case Brought::added_hexose:
      return &d.added_hexose;
    case Brought::added_maltose:
      return &d.added_maltose;
    case Brought::lactate:
      return &d.lactate;
    case Brought::acetate:
      return &d.acetate;
    case Brought::buffering:
      return &d.buffering;
    case Brought::flour_buffering:
      return &d.flour_buffering;
    case Brought::free_sulphite:
      return &d.free_sulphite;
    case Brought::sorbate:
      return &d.sorbate;
    case Brought::iso_alpha_acids:
      return &d.iso_alpha_acids;
    case Brought::carbon_dioxide:
      return &d.carbon_dioxide;
    case Brought::other_acids:
    case Brought::acidity:
      return nullptr;
  }
  return nullptr;
}

/// Changes one number of a dough by a factor exp(change), its pH by that much.
template <class T>
void change(kinetics::DoughOf<T>& dough, Brought brought, const T& by) {
  using std::exp;
  if (brought == Brought::acidity) {
    dough.ph = dough.ph + by;
  } else if (brought == Brought::other_acids) {
    for (T& acid : dough.acid) acid = acid * exp(by);
  } else if (T* const number = number_of(dough, brought)) {
    *number = *number * exp(by);
  }
}

/// The parameters of unknowns z.
template <class T>
kinetics::Parameters<T> parameters_of(const DoughToRead& batch, const T* z) {
  using std::exp;
  const auto& book = kinetics::priors();
  kinetics::Parameters<T> out;
  for (std::size_t i = 0; i < kinetics::parameter_count; ++i)
    out.value[i] = T(book[i].book * std::exp(batch.ln_mean[i]));
  const std::size_t n = batch.parameters.size();
  for (std::size_t i = 0; i < n; ++i) {
    T x(0.0);
    for (std::size_t j = 0; j <= i; ++j) {
      const double f = batch.factor[i * n + j];
      if (f != 0) x += z[j] * f;
    }
    T& value = out[batch.parameters[i]];
    value = value * exp(x);
  }
  return out;
}

/// A dough that may be hardly alive is slow and not fast: above 0 its w counts for less, bit by
/// bit.
///     w (1 - (1 - faster) / (1 + exp(-2 w/doubt)))
template <class T>
T held_back(const T& w, const Pace& pace) {
  using std::exp;
  if (pace.faster == 1) return w;
  return w * (T(1.0) - (1 - pace.faster) / (T(1.0) + exp(w * (-2 / pace.doubt))));
}

/// Everything of unknowns z. `mark_doubt` is the sd of ln_mark, `stretch` the hours of a piece of
/// pace.
template <class T>
World<T> world_of(const DoughToRead& batch, const T* z, double mark_doubt, double stretch) {
  using std::exp;
  World<T> world;
  world.parameters = parameters_of(batch, z);
  world.dough = lifted<T>(batch.dough);
  const std::size_t n = batch.parameters.size();
  for (std::size_t b = 0; b < brought_count; ++b) {
    T by(0.0);
    bool touched = false;
    for (std::size_t j = 0; j < n; ++j) {
      const double f = batch.by_parameter[b * n + j];
      if (f == 0) continue;
      by += z[j] * f;
      touched = true;
    }
    for (std::size_t j = 0; j < batch.own_count; ++j) {
      const double f = batch.own[b * batch.own_count + j];
      if (f == 0) continue;
      by += z[n + j] * f;
      touched = true;
    }
    if (touched) change(world.dough, static_cast<Brought>(b), by);
  }
  const Sample& sample = batch.sample;
  const T* jar = z + batch.first_of_jar();
  world.ln_mark = long_tailed(jar[0]) * mark_doubt;
  world.drag = exp(jar[1] * sample.drag_doubt) * sample.drag;
  world.warmer = jar[2] * sample.warmer_doubt;
  // An Ornstein-Uhlenbeck walk from piece to piece.
  const T* pace = z + batch.first_of_pace();
  const double kept = std::exp(-stretch / batch.pace.memory);
  const double fresh = batch.pace.doubt * std::sqrt(1 - kept * kept);
  world.ln_pace[0] = pace[0] * batch.pace.doubt;
  for (std::size_t i = 1; i < pace_pieces; ++i)
    world.ln_pace[i] = world.ln_pace[i - 1] * kept + pace[i] * fresh;
  for (T& w : world.ln_pace) w = held_back(w, batch.pace);
  return world;
}

/// Model hours gone by at `hours` on the clock, when each stretch has its own pace; the last pace
/// goes on beyond the last stretch.
template <class T>
T model_hours(const std::array<T, pace_pieces>& ln_pace, double stretch, double hours) {
  using std::exp;
  T gone(0.0);
  for (std::size_t i = 0; i < pace_pieces; ++i) {
    const double from = stretch * static_cast<double>(i);
    const bool last = i + 1 == pace_pieces;
    const double to = last ? hours : std::min(hours, from + stretch);
    if (to <= from) break;
    gone += exp(ln_pace[i]) * (to - from);
  }
  return gone;
}

}  // namespace barm::estimation::internal

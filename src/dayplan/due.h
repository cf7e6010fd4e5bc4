#pragma once
// One dough at work: when its next step is due, and whether it comes through with the house to
// itself.
#include "dayplan/day.h"

namespace barm::dayplan {

/// When a step may begin [min]: from the moment the dough is ready until it is past it.
struct Due {
  static constexpr std::size_t no_leg = static_cast<std::size_t>(-1);

  double ready = 0, latest = for_ever;
  std::size_t leg = no_leg;  ///< the one that ends first
  bool sure = true;          ///< seen coming: no leg to it is in doubt and unwatched
};

/// Of step `to` of dough k, from when the steps before it really began.
[[nodiscard]] Due due(const Way& way, std::size_t to, std::size_t k, const double* begun);

/// When whoever works by the plan turns to a step: at its planned time, or
///
///     later    when the dough is ready: planned < ready
///     earlier  when it does not last so long: after half of its wait, for nobody cuts it finer
[[nodiscard]] double turned_to(const Due& due, double planned);

/// How many of the doughs of one bake come through with the house to itself: nothing in the way
/// but nights.
[[nodiscard]] std::size_t through_alone(const Day& day, std::size_t bake, const Course& course);

}  // namespace barm::dayplan

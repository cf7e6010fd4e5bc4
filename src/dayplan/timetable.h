#pragma once
// The steps of chosen bakes laid on the clock by a kept constraint solver (Gecode).
#include <functional>
#include <optional>
#include <vector>

#include "dayplan/day.h"

namespace barm::dayplan {

/// A bake that is to be laid, or that lies already.
struct Laid {
  std::size_t bake = 0, way = 0;
  const std::vector<Minutes>* begin = nullptr;  ///< where it lies; null: to be laid
};

/// A step that must begin at a minute.
struct Pin {
  At at;
  Minutes begin = 0;
};

struct Search {
  std::vector<Laid> bakes;
  std::vector<Pin> pins;
  const Plan* near = nullptr;        ///< change as little as may be of it, before all else
  std::optional<long> below;         ///< only what costs less
  std::optional<unsigned> failures;  ///< give up after so many dead ends; else never
  std::function<bool()> cancelled;   ///< asked now and then
};

struct Found {
  std::vector<Course> courses;  ///< in the order of Search::bakes; empty where none was found
  long cost = 0;                ///< of the bakes that were to be laid
  bool finished = false;        ///< nothing cheaper exists
  long dead_ends = 0;           ///< met on the way
};

/// The begins x (in slots) of least cost, and of those the latest that come first in the search:
///
///     minimise  sum over the legs of  cost(x_to - x_from)
///     with      x_(i+1) >= x_i + its minutes,  no more of a resource in use than the house has
///
/// With `near` the sum has in front, heavier than all costs, the slots by which steps are moved.
[[nodiscard]] Found lay(const Day& day, const Search& search);

}  // namespace barm::dayplan

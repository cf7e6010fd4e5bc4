#pragma once
// When a step can begin at all, with the house to itself.
#include <optional>
#include <vector>

#include "dayplan/day.h"

namespace barm::dayplan {

struct Bounds {
  std::vector<Minutes> earliest, latest;  ///< of each step
};

/// By the distances at which any dough of each leg gets through (window.h), the order of the steps
/// and the nights, all counted from the hour at which the bread is wanted and from the beginning of
/// the plan. Nothing where there is no such course.
[[nodiscard]] std::optional<Bounds> bounds(const Day& day, std::size_t bake, std::size_t way);

}  // namespace barm::dayplan

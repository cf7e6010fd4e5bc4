#pragma once
// What would free a day: each thing of the house, its nights and the hour of the bread changed one
// by one, and the day planned again.
#include <string>
#include <vector>

#include "dayplan/day.h"

namespace barm::dayplan {

/// The day with these bakes alone.
[[nodiscard]] Day only(const Day& day, const std::vector<std::size_t>& bakes);

/// From the first step to the bread by the shortest way of the fastest dough, nights left out.
[[nodiscard]] Minutes shortest(const Bake& bake);

/// For a day without a plan: with which one change it has one, in words such as "one more deck",
/// "the night worked through", "the bread 2 h later".
[[nodiscard]] std::vector<std::string> what_would_free(const Day& day);

/// For a day whose timetable costs `cost` (plan.h): with one more of what of the house it would
/// cost less.
[[nodiscard]] std::vector<std::string> what_would_ease(const Day& day, long cost);

}  // namespace barm::dayplan

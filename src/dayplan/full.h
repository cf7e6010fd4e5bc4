#pragma once
// A day that is over-full, shown without a search: what must be held between two hours is more than
// there is of it.
//
//     sum over bakes of  min over ways of  sum over uses of  amount * overlap(use, [a, b))
//         >  capacity * (b - a - what is closed of it)
//     overlap = the least of [s, s + held) with [a, b), s from the earliest to the latest begin
#include <optional>
#include <vector>

#include "dayplan/day.h"

namespace barm::dayplan {

/// Two hours between which the bakes would hold more of a resource than there is.
struct OverFull {
  std::vector<std::size_t> bakes;  ///< without any one of which this is not shown
  std::size_t resource = 0;
  Span when;
  Minutes needed = 0, there = 0;  ///< resource minutes
};

/// The bakes whose every way has bounds (bounds.h) are counted. Nothing where the day is not shown
/// to be over-full, which does not say that it has a plan. Source: the energy of a cumulative
/// resource, P. Baptiste, C. Le Pape, W. Nuijten, Constraint-Based Scheduling, 2001; from memory.
/// Checked against: tests/dayplan/full_test.cpp.
[[nodiscard]] std::optional<OverFull> over_full(const Day& day);

}  // namespace barm::dayplan

#pragma once
// Who holds what and when: the rows of a day's picture.
#include <vector>

#include "dayplan/day.h"

namespace barm::dayplan {

/// A step of a plan that holds some of a resource.
struct Holding {
  At at;
  std::size_t resource = 0;
  int amount = 1;
  Span when;
};

/// In order of time, for each resource of the house.
[[nodiscard]] std::vector<std::vector<Holding>> holdings(const Day& day, const Plan& plan);

/// More of a resource wanted than the house has.
struct Clash {
  std::size_t resource = 0;
  Span when;               ///< the moment at which most is wanted
  int wanted = 0;          ///< of the resource then
  std::vector<At> takers;  ///< who wants it then
};

/// The worst clash of each resource that has one.
[[nodiscard]] std::vector<Clash> clashes(const Day& day, const Plan& plan);

/// What is free of a resource that is not closed, from `from` to `to`: spans of the same number.
struct Free {
  Span when;
  int amount = 0;
};

[[nodiscard]] std::vector<Free> free_hands(const Day& day,
                                           const Plan& plan,
                                           std::size_t resource,
                                           Span of);

}  // namespace barm::dayplan

#pragma once
// What would free a day: each thing of the house, its nights and the hour of the bread changed one
// by one, and the day planned again.
#include <functional>
#include <string>
#include <vector>

#include "dayplan/day.h"

namespace barm::dayplan {

/// Ways of a bake that nobody has allowed yet, tried to tell whether they would help.
struct Offer {
  std::size_t bake = 0;
  std::vector<Way> ways;
  std::string words;  ///< "the Mead loaf in two loads"
};

/// Offers for some bakes of the day: asked for only where they may help.
using Offers = std::function<std::vector<Offer>(const std::vector<std::size_t>& bakes)>;

/// The day with these bakes alone.
[[nodiscard]] Day only(const Day& day, const std::vector<std::size_t>& bakes);

/// From the first step to the bread by the shortest way of the fastest dough, nights left out.
[[nodiscard]] Minutes shortest(const Bake& bake);

/// For bakes that have no plan together: with which one change they have one, in words such as "one
/// more deck", "the night worked through", "the bread 2 h later", or with which offer.
[[nodiscard]] std::vector<std::string> what_would_free(const Day& day,
                                                       const std::vector<std::size_t>& bakes,
                                                       const Offers& offers = nullptr);

/// For a day with a plan: with one more of what of the house, or with which offers for these bakes,
/// its timetable would cost less.
[[nodiscard]] std::vector<std::string> what_would_ease(const Day& day,
                                                       const std::vector<std::size_t>& bakes,
                                                       const Offers& offers = nullptr);

/// The same day with so many of its doughs: enough to compare timetables by.
[[nodiscard]] Day thinned(const Day& day, std::size_t doughs);

}  // namespace barm::dayplan

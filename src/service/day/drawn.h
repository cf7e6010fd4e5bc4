#pragma once
// A day as the planner takes it: every bake by every way it may go, its hours drawn.
#include <optional>

#include "base/result.h"
#include "dayplan/day.h"
#include "dayplan/remedy.h"
#include "forecast/options.h"
#include "service/day/file.h"

namespace barm::service {

/// The bake's name; a number behind it where the day has it more than once.
[[nodiscard]] std::string name_of_bake(const DayFile& file, std::size_t bake);

/// The ways of a bake in the planner's order, its own first.
[[nodiscard]] std::vector<OtherWay> ways_of(const DayBake& bake);

/// The whole day with_ovens(), drawn so often; of a plan only the ways it takes. Errors: those of
/// dough_draws() and steps_of().
[[nodiscard]] Result<dayplan::Day> drawn_day(const DayFile& file,
                                             const forecast::Options& options,
                                             const dayplan::Plan* plan = nullptr);

/// Ways that no one has allowed and that bakers would think of: the bulk 3 K warmer or cooler, half
/// as much levain again, a night in the fridge, two loads. None that is behind a dough already, and
/// none that the planner or the forecast has no answer for.
[[nodiscard]] std::vector<dayplan::Offer> offered_ways(const DayFile& file,
                                                       const std::vector<std::size_t>& bakes,
                                                       const forecast::Options& options);

}  // namespace barm::service

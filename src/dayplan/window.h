#pragma once
// How far apart two steps may lie, in slots of the grid, and what each distance costs in doughs.
//
//     P(a) = share of doughs k with  ready_k <= a <= ready_k + lasts_k
//     cost(a) = round(-100 ln P(a))
#include <optional>
#include <vector>

#include "dayplan/day.h"

namespace barm::dayplan {

/// Share of the doughs that are ready, and not past it, `apart` [min] after the leg began.
[[nodiscard]] double share(const Leg& leg, double apart);

/// A hundredth of a natural logarithm: what the solver works in.
inline constexpr double cost_unit = 100;

/// The distances at which any dough is ready: slot d lies grid * d + shift minutes apart.
struct Window {
  int least = 0;           ///< in slots
  std::vector<long> cost;  ///< of slots least, least + 1, …; of `never` none is ready

  static constexpr long never = 1'000'000;

  [[nodiscard]] int most() const { return least + static_cast<int>(cost.size()) - 1; }
};

/// The legs a way is priced by: its own that are in doubt, and from the beginning of each of them
/// the shortest way to the bread, by the same doughs:
///
///     ready_k = the earliest end when every later step begins as soon as dough k is ready
[[nodiscard]] std::vector<Leg> priced_legs(const Way& way);

/// Up to `horizon` slots; empty where no distance lets any dough through.
[[nodiscard]] std::optional<Window> window(const Leg& leg,
                                           Minutes grid,
                                           Minutes shift,
                                           int horizon);

}  // namespace barm::dayplan

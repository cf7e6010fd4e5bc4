#pragma once
// Backwards: when to mix and when to feed for bread that goes into the oven at an hour.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "forecast/options.h"
#include "forecast/timeline.h"
#include "formula/bake.h"
#include "service/now.h"

namespace barm::service {

struct WhenRequest {
  std::string oven;  ///< "2026-11-29T08:30"; "Sun 08:30" or "08:30": the next one
  Now now;
};

/// When to mix so that the dough is ready then and not past its best, with a chance.
struct MixingTimes {
  Probability chance;           ///< wanted
  std::optional<Time> soonest;  ///< before the oven, the longest; empty: it cannot be had
  std::optional<Time> latest;   ///< the shortest
};

struct WhenAnswer {
  formula::Bake bake;
  time::WallClock clock;         ///< counts from the oven
  std::string oven_at;           ///< local day and time
  std::vector<MixingTimes> mix;  ///< with 4 in 5, and with 19 in 20
  Time best;                     ///< mixed so long before the oven the chance is largest
  Probability best_chance;
  std::optional<Time> fed_before_mixing;  ///< its levain, where the bake has one of its own
  std::vector<forecast::Bread> bread;     ///< of each load, where the bake has an [oven]
  Time horizon;
  int draws = 0;
};

/// A dough is ready when its stages are through, and past its best when it has been at its largest
/// volume where it then stands. Nothing is mixed or fed before now. Errors: bad_input for a moment
/// that is none, lies behind or is nearer than its levain takes, and as foresee().
[[nodiscard]] Result<WhenAnswer> when(const formula::Bake& bake,
                                      const WhenRequest& request,
                                      forecast::Options options);

/// `barm.when/1`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const WhenAnswer& answer);

}  // namespace barm::service

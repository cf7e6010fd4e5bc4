#pragma once
// How warm the water must be, by the trade's factor rule.
#include <nlohmann/json_fwd.hpp>
#include <optional>

#include "base/result.h"
#include "formula/water_temperature.h"

namespace barm::service {

/// How warm the water must be, and how much of it to weigh as ice.
struct WaterRequest {
  formula::Mixing mixing;
  std::optional<Mass> water;  ///< with `tap`: how much of it as ice
  std::optional<Temperature> tap;
};

struct WaterAnswer {
  WaterRequest request;
  Temperature water;
  std::optional<Mass> ice;  ///< of the water's weight
};

[[nodiscard]] Result<WaterAnswer> water(const WaterRequest& request);

/// `barm.water/1`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const WaterAnswer& answer);

}  // namespace barm::service

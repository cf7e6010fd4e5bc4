#pragma once
// What several answers say alike as JSON.
#include <nlohmann/json.hpp>
#include <optional>

#include "forecast/spread.h"
#include "units/units.h"

namespace barm::service::internal {

/// [h], or null where it never comes.
[[nodiscard]] inline nlohmann::json hours(const std::optional<Time>& time) {
  return time ? nlohmann::json(time->in(hour)) : nlohmann::json();
}

/// [h] Ten, fifty, ninety of a hundred doughs, and the two ends.
[[nodiscard]] inline nlohmann::json spread(const forecast::Spread& s) {
  return {{"p05_h", hours(s.p05)},
          {"p10_h", hours(s.p10)},
          {"p50_h", hours(s.p50)},
          {"p90_h", hours(s.p90)},
          {"p95_h", hours(s.p95)}};
}

}  // namespace barm::service::internal

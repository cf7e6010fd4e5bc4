#pragma once
// What several answers say alike as JSON.
#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "forecast/spread.h"
#include "service/internal/object.h"
#include "units/units.h"

namespace barm::service::internal {

/// An answer of that kind, in its first version.
[[nodiscard]] inline nlohmann::json document(const char* kind) {
  return object({{"schema", std::string("barm.") + kind + "/1"}});
}

/// [h], or null where it never comes.
[[nodiscard]] inline nlohmann::json hours(const std::optional<Time>& time) {
  return time ? nlohmann::json(time->in(hour)) : nlohmann::json();
}

/// [h] Ten, fifty, ninety of a hundred doughs, and the two ends.
[[nodiscard]] inline nlohmann::json spread(const forecast::Spread& s) {
  return object({{"p05_h", hours(s.p05)},
                 {"p10_h", hours(s.p10)},
                 {"p50_h", hours(s.p50)},
                 {"p90_h", hours(s.p90)},
                 {"p95_h", hours(s.p95)}});
}

/// Ten, fifty, ninety of a hundred doughs; null for what is not finite.
[[nodiscard]] inline nlohmann::json range(const forecast::Range& range) {
  const auto finite = [](double value) {
    return std::isfinite(value) ? nlohmann::json(value) : nlohmann::json();
  };
  return object(
      {{"p10", finite(range.p10)}, {"p50", finite(range.p50)}, {"p90", finite(range.p90)}});
}

}  // namespace barm::service::internal

#pragma once
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "units/units.h"

namespace barm::time {

/// A moment, the same everywhere: whole seconds since 1970-01-01T00:00:00 UTC. What a clock on the
/// wall shows then is the business of Zone.
struct Instant {
  std::int64_t seconds = 0;

  friend constexpr auto operator<=>(Instant, Instant) = default;

  /// "2026-11-28T06:00:00Z".
  [[nodiscard]] std::string text() const;
};

inline constexpr std::int64_t seconds_a_quarter = 900;
inline constexpr std::int64_t seconds_a_day = 86400;

[[nodiscard]] constexpr Instant operator+(Instant at, std::int64_t seconds) {
  return {at.seconds + seconds};
}

[[nodiscard]] constexpr Instant operator-(Instant at, std::int64_t seconds) {
  return {at.seconds - seconds};
}

/// To the nearest second.
[[nodiscard]] Instant operator+(Instant at, Time later);

/// The nearest moment that is a whole number of so many seconds; half is taken up.
[[nodiscard]] Instant to_nearest(std::int64_t seconds, Instant at);

[[nodiscard]] inline Time operator-(Instant later, Instant earlier) {
  return static_cast<double>(later.seconds - earlier.seconds) * second;
}

/// From "2026-11-28T06:00:00Z" or with an offset such as "2026-11-28T07:00+01:00" (RFC 3339; the
/// seconds may be left out, parts of a second are dropped). Nothing for anything else, for a day
/// that is none, or outside the years 1900 to 2199.
[[nodiscard]] std::optional<Instant> parse_instant(std::string_view text);

}  // namespace barm::time

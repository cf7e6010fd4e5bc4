#pragma once
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace barm::storage {

/// A moment in time: whole seconds since 1970-01-01T00:00:00 UTC. What a clock on the wall shows
/// then is service::Zone's business.
struct Moment {
  std::int64_t seconds = 0;

  friend constexpr auto operator<=>(Moment, Moment) = default;

  /// "2026-11-28T06:00:00Z".
  [[nodiscard]] std::string text() const;
};

/// From "2026-11-28T06:00:00Z" or with an offset such as "2026-11-28T07:00+01:00" (RFC 3339; the
/// seconds may be left out, parts of a second are dropped). Nothing for anything else, for a day
/// that is none, or outside the years 1900 to 2199.
[[nodiscard]] std::optional<Moment> parse_moment(std::string_view text);

[[nodiscard]] constexpr Moment operator+(Moment moment, std::int64_t seconds) {
  return {moment.seconds + seconds};
}

[[nodiscard]] constexpr Moment operator-(Moment moment, std::int64_t seconds) {
  return {moment.seconds - seconds};
}

inline constexpr std::int64_t a_day = 86400;

}  // namespace barm::storage

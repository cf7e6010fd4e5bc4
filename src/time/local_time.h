#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "time/date.h"

namespace barm::time {

/// What the clock on a wall shows: a day and a time of day, or the time of day alone, on a day that
/// nobody named.
struct LocalTime {
  std::optional<Date> date;
  int second_of_day = 0;  ///< [s], 0 to 86399

  friend bool operator==(const LocalTime&, const LocalTime&) = default;

  /// "2026-11-28T07:00" or "07:00": to the minute.
  [[nodiscard]] std::string text() const;

  /// "07:00".
  [[nodiscard]] std::string of_day() const;
};

/// From "2026-11-28T07:00", with a blank for the T, with seconds (parts of them are dropped); or
/// the time of day alone, "07:00" or "7:00". Nothing for anything else, a day that is none, or a
/// time that no clock shows.
[[nodiscard]] std::optional<LocalTime> parse_local(std::string_view text);

/// Whether a text looks like a clock time ("14:30", "2026-11-28 14:30") and not like a number.
[[nodiscard]] bool looks_like_clock(std::string_view text);

}  // namespace barm::time

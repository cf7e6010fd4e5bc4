#pragma once
#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace barm::time {

/// A day of the Gregorian calendar, counted from 1970-01-01.
struct Date {
  long days = 0;

  friend constexpr auto operator<=>(Date, Date) = default;

  /// "2026-11-28".
  [[nodiscard]] std::string text() const;

  /// "Sat".
  [[nodiscard]] std::string weekday() const;

  /// "28 Nov 2026".
  [[nodiscard]] std::string in_words() const;
};

/// From "2026-11-28". Nothing for anything else, or for a day that is none.
[[nodiscard]] std::optional<Date> parse_date(std::string_view text);

}  // namespace barm::time

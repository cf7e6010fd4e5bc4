#pragma once
#include <cstdlib>
#include <optional>
#include <string>
#include <string_view>

namespace barm::shop::internal {

/// Days since 1970-01-01 of "2026-11-20" in the Gregorian calendar; nothing when there is no such
/// day.
[[nodiscard]] inline std::optional<long> day_number(std::string_view text) {
  constexpr std::size_t length = 10;
  if (text.size() != length || text[4] != '-' || text[7] != '-') return std::nullopt;
  for (const std::size_t i : {0, 1, 2, 3, 5, 6, 8, 9}) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
  }
  const auto number = [&](std::size_t at, std::size_t count) {
    return std::strtol(std::string(text.substr(at, count)).c_str(), nullptr, 10);
  };
  const long year = number(0, 4);
  const long month = number(5, 2);
  const long day = number(8, 2);
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  constexpr long days_of[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  if (month < 1 || month > 12 || year < 1) return std::nullopt;
  const long most = days_of[month - 1] + (month == 2 && leap ? 1 : 0);
  if (day < 1 || day > most) return std::nullopt;
  const long before = year - 1;
  long days = 365 * before + before / 4 - before / 100 + before / 400;
  for (long m = 1; m < month; ++m) days += days_of[m - 1] + (m == 2 && leap ? 1 : 0);
  constexpr long days_to_1970 = 719162;
  return days + day - 1 - days_to_1970;
}

[[nodiscard]] inline bool is_date(std::string_view text) { return day_number(text).has_value(); }

}  // namespace barm::shop::internal

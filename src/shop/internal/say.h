#pragma once
// How the shop says a number in the words that go with it.
#include <fmt/format.h>

#include <cmath>
#include <string>
#include <vector>

#include "units/units.h"

namespace barm::shop::internal {

inline constexpr Mass microgram = 1e-3 * milligram;

/// "1132 g", "4.5 g", "0.25 g"; from 10 kg on "12.4 kg".
[[nodiscard]] inline std::string grams(Mass mass) {
  const double g = mass.in(gram);
  if (g >= 10'000) return fmt::format("{:.1f} kg", g / 1000);
  if (g >= 9.95) return fmt::format("{:.0f} g", g);
  return g >= 0.995 ? fmt::format("{:.1f} g", g) : fmt::format("{:.2f} g", g);
}

/// "712 mL", "1.2 L".
[[nodiscard]] inline std::string millilitres(Volume volume) {
  const double ml = volume.in(millilitre);
  return ml >= 1000 ? fmt::format("{:.4g} L", ml / 1000) : fmt::format("{:.0f} mL", ml);
}

/// "eggs, milk".
[[nodiscard]] inline std::string joined(const std::vector<std::string>& words) {
  return fmt::format("{}", fmt::join(words, ", "));
}

/// "71 %", "2.1 %", "0.5 %".
[[nodiscard]] inline std::string share(double fraction) {
  const double percent = 100 * fraction;
  return percent >= 9.95 ? fmt::format("{:.0f} %", percent) : fmt::format("{:.2g} %", percent);
}

/// "1 h 05", "25 min", "1.5 min".
[[nodiscard]] inline std::string clock(Time time) {
  const double minutes = time.in(minute);
  if (minutes < 10) return fmt::format("{:.2g} min", minutes);
  const long whole = std::lround(minutes);
  if (whole < 60) return fmt::format("{} min", whole);
  return fmt::format("{} h {:02}", whole / 60, whole % 60);
}

}  // namespace barm::shop::internal

#include "service/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <cmath>

namespace barm::service {

namespace {

std::string two_figures(double value) {
  const double size = std::abs(value);
  if (size >= 10 || size == 0) return fmt::format("{:.0f}", value);
  if (size >= 1) return fmt::format("{:.1f}", value);
  return fmt::format("{:.2g}", value);
}

}  // namespace

std::string grams(Mass mass) {
  const double g = mass.in(gram);
  if (std::abs(g) >= 9.95) return fmt::format("{:.0f}", g);
  if (std::abs(g) >= 0.95) return fmt::format("{:.1f}", g);
  return g == 0 ? "0" : fmt::format("{:.2f}", g);
}

std::string weight(Mass mass) {
  if (std::abs(mass.in(kilogram)) >= 10) return fmt::format("{:.1f} kg", mass.in(kilogram));
  return grams(mass) + " g";
}

std::string volume(Volume volume) {
  const double ml = volume.in(millilitre);
  if (ml >= 10000) return fmt::format("{:.1f} L", volume.in(litre));
  return ml >= 9.95 ? fmt::format("{:.0f} mL", ml) : fmt::format("{:.1f} mL", ml);
}

std::string warmth(Temperature temperature) {
  const double half = std::round(2 * temperature.celsius()) / 2;
  return half == std::floor(half) ? fmt::format("{:.0f} °C", half) : fmt::format("{:.1f} °C", half);
}

std::string share(double fraction) { return two_figures(100 * fraction) + " %"; }

namespace {

// Nobody counts further.
constexpr int most_counted = 100;

/// How many there are to one, as said.
double counted(double n) {
  const double step = n < 10 ? 1 : n < 50 ? 5 : 10;
  return std::min<double>(most_counted, step * std::round(n / step));
}

}  // namespace

std::string odds(Probability chance, int draws) {
  const double p = chance.value();
  // Of so many doughs looked at, a share of one is none.
  const int of = std::min(draws, most_counted);
  const double least = std::max(1.0 / most_counted, 0.999 / draws);
  if (p < least) return fmt::format("under 1 in {}", of);
  if (p > 1 - least) return fmt::format("over {} in {}", of - 1, of);
  if (p < 0.29) return fmt::format("1 in {:.0f}", counted(1 / p));
  if (p > 0.95) {
    const double all = counted(1 / (1 - p));
    return fmt::format("{:.0f} in {:.0f}", all - 1, all);
  }
  // The nearest of the small fractions people say.
  constexpr std::array<std::array<int, 2>, 12> said{{{1, 3},
                                                     {2, 5},
                                                     {1, 2},
                                                     {3, 5},
                                                     {2, 3},
                                                     {3, 4},
                                                     {4, 5},
                                                     {5, 6},
                                                     {9, 10},
                                                     {19, 20},
                                                     {3, 10},
                                                     {7, 10}}};
  const auto* best = said.data();
  for (const auto& fraction : said) {
    if (std::abs(fraction[0] / static_cast<double>(fraction[1]) - p) <
        std::abs((*best)[0] / static_cast<double>((*best)[1]) - p)) {
      best = &fraction;
    }
  }
  return fmt::format("{} in {}", (*best)[0], (*best)[1]);
}

std::string risen(double ratio) {
  if (std::abs(ratio - 2) < 1e-9) return "doubled";
  if (std::abs(ratio - 3) < 1e-9) return "tripled";
  if (std::abs(ratio - 1.5) < 1e-9) return "risen by half";
  return fmt::format("{} times", two_figures(ratio));
}

}  // namespace barm::service

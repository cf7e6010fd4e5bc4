#include "formula/internal/say.h"

#include <fmt/format.h>

#include <cmath>

namespace barm::formula::internal {

namespace {

int decimals(double value) {
  if (value == 0 || std::abs(value) >= 9.95) return 0;
  return std::abs(value) >= 0.995 ? 1 : 2;
}

}  // namespace

std::string grams(Mass mass) {
  const double g = mass.in(gram);
  return fmt::format("{:.{}f} g", g, decimals(g));
}

std::string millilitres(Volume volume) {
  const double ml = volume.in(millilitre);
  return fmt::format("{:.{}f} mL", ml, decimals(ml));
}

std::string percent(double fraction) {
  const double value = std::round(1000 * fraction) / 10;
  return fmt::format("{:g} %", value);
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " and " : ", ";
    out += words[i];
  }
  return out;
}

}  // namespace barm::formula::internal

#include "shop/serving.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "generated/constants.h"

namespace barm::shop {

namespace {

const Mass reference = constants::serving::us_bread.value;

const char* word_of(Mass piece) { return piece <= 3.0 * reference ? "roll" : "loaf"; }

/// 2 to 6, and what comes of those by 2 and 3 alone.
bool is_share(int parts) {
  for (const int first : {2, 3, 4, 5, 6}) {
    int rest = parts;
    if (rest % first != 0) continue;
    rest /= first;
    while (rest % 2 == 0) rest /= 2;
    while (rest % 3 == 0) rest /= 3;
    if (rest == 1) return true;
  }
  return false;
}

int parts_near(double wanted) {
  constexpr int most = 200;
  int best = 2;
  for (int parts = 2; parts <= most; ++parts) {
    const bool nearer = std::abs(1 / wanted - 1.0 / parts) < std::abs(1 / wanted - 1.0 / best);
    if (is_share(parts) && nearer) best = parts;
  }
  return best;
}

/// Whole; between 2 and 5 to the half (21 CFR 101.9(b)(8)).
std::string number_said(double servings) {
  const bool few = servings > 2 && servings < 5;
  const double said = few ? std::round(2 * servings) / 2 : std::max(1.0, std::round(servings));
  return fmt::format("{}{:g}", std::abs(said - servings) > 1e-9 ? "about " : "", said);
}

}  // namespace

Serving us_serving(Mass piece, int slices, Mass asked) {
  Serving out;
  out.mass = asked.si() > 0 ? asked : reference;
  if (piece.si() <= 0) return out;
  const double pieces = piece / reference;
  constexpr double twice = 2;
  constexpr double thrice = 3;
  out.whole_too = pieces >= twice && pieces <= thrice;
  if (slices > 0) {
    const Mass slice = (1.0 / slices) * piece;
    const double near = std::max(1.0, std::round((out.mass / slice).si() + 1e-9));
    const int count = std::min(slices, static_cast<int>(near));
    out.measure = fmt::format("{} {}", count, count == 1 ? "slice" : "slices");
    out.mass = static_cast<double>(count) * slice;
    out.number = number_said(static_cast<double>(slices) / count);
    return out;
  }
  if (asked.si() <= 0 && pieces < twice) {
    out.measure = fmt::format("1 {}", word_of(piece));
    out.mass = piece;
    out.number = "1";
    return out;
  }
  const int parts = parts_near(std::max(1.0, (piece / out.mass).si()));
  out.measure = fmt::format("1/{} {}", parts, word_of(piece));
  out.mass = (1.0 / parts) * piece;
  out.number = fmt::format("{}", parts);
  return out;
}

}  // namespace barm::shop

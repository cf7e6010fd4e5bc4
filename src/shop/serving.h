#pragma once
// A serving as the United States have it.
#include <string>
#include <vector>

#include "units/units.h"

namespace barm::shop {

struct Serving {
  std::string measure;  ///< "1/16 loaf", "2 slices", "1 roll"; empty: not known
  Mass mass;
  std::string number;      ///< servings in a pack of one piece, "about 16"; empty: not known
  bool whole_too = false;  ///< a second column for the whole piece is asked for
};

/// The serving of a piece that weighs so much, near the reference amount R of bread:
///
///     slices given         the slices that come nearest to R
///     under 2 R            the whole piece, one serving
///     2 R to 3 R           a share of it near R, and a second column for the whole
///     above                a share near R: halves to sixths, divided again by 2 or 3
///
/// `asked` goes before where it is above zero. Source: us_household, us_dual, data/shop.toml
/// [serving]. Checked against: tests/shop/serving_test.cpp.
[[nodiscard]] Serving us_serving(Mass piece, int slices, Mass asked);

}  // namespace barm::shop

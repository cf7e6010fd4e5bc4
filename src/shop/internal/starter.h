#pragma once
#include <vector>

#include "formula/bowl.h"
#include "larder/composition.h"

namespace barm::shop::internal {

/// Flour and water that were fed, not an ingredient of its own.
[[nodiscard]] inline bool is_starter(const formula::Portion& portion) {
  return portion.levain || portion.ingredient.group == larder::Group::starter;
}

/// A portion, or what it was made of, by mass.
struct MadeOf {
  formula::Portion portion;
  larder::Composition composition;
  double share = 1;
};

/// A poolish or biga as the flour, water and yeast it was stirred of; anything else as it is. A
/// sourdough is listed under its own name.
[[nodiscard]] std::vector<MadeOf> made_of(const formula::Bake& bake,
                                          const formula::Portion& portion,
                                          const larder::Composition& composition);

}  // namespace barm::shop::internal

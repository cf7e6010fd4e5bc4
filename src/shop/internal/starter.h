#pragma once
#include "formula/bowl.h"

namespace barm::shop::internal {

/// Flour and water that were fed, not an ingredient of its own.
[[nodiscard]] inline bool is_starter(const formula::Portion& portion) {
  return portion.levain || portion.ingredient.group == larder::Group::starter;
}

}  // namespace barm::shop::internal

#pragma once
#include <algorithm>

#include "formula/bake.h"

namespace barm::service::internal {

/// Whether milk or egg is in the bowl.
[[nodiscard]] inline bool spoils_warm(const formula::Bake& bake) {
  return std::any_of(bake.bowl.begin(), bake.bowl.end(), [](const formula::Portion& portion) {
    return portion.ingredient.group == larder::Group::dairy ||
           portion.ingredient.group == larder::Group::egg;
  });
}

}  // namespace barm::service::internal

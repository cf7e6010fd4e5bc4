#pragma once
#include <string>
#include <vector>

#include "formula/bowl.h"

namespace barm::formula {

/// What can happen with this bowl, what bakers do about it and whose rules hold; one line each.
[[nodiscard]] std::vector<std::string> cautions(const Bake& bake, const Bowl& bowl);

/// What is assumed because the larder does not know it, in a baker's words; one line each.
[[nodiscard]] std::vector<std::string> doubts(const Bake& bake);

}  // namespace barm::formula

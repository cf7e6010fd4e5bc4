#pragma once
// What alcohol in the oven can do, and what stays of it: said once, of one bake or of a whole
// day's.
#include <string>
#include <vector>

#include "service/oven/oven.h"

namespace barm::service {

/// Of one bake without its name; of several each figure with the name of its bake, what bakers do
/// and whose rules hold once.
[[nodiscard]] std::vector<std::string> alcohol_cautions(const std::vector<OvenAnswer>& baked);

}  // namespace barm::service

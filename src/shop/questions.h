#pragma once
#include <vector>

#include "shop/label.h"

namespace barm::shop {

/// What has to be asked locally or of a maker before the label can stand: fining agents of the
/// drinks, alcohol left, protected names, age and duty, loose or packed, small sellers. Source:
/// data/tables/fining.csv, protected_names.csv, label_rules.csv.
[[nodiscard]] std::vector<LabelLine> questions(const formula::Bake& bake,
                                               const Ranged& alcohol,
                                               Law law);

}  // namespace barm::shop

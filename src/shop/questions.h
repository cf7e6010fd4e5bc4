#pragma once
#include <vector>

#include "shop/label.h"

namespace barm::shop {

/// What has to be asked locally or of a maker before the label can stand, the worst first:
/// allergens, fining agents of the drinks, alcohol left, lists of compounds, protected names, age
/// and duty, loose or packed, small sellers. Source: data/tables/fining.csv, allergens.csv,
/// may_hold.csv, protected_names.csv, label_rules.csv.
[[nodiscard]] std::vector<LabelLine> questions(const formula::Bake& bake, const Label& label);

}  // namespace barm::shop

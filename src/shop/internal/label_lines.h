#pragma once
#include <string>
#include <vector>

#include "shop/label.h"

namespace barm::shop::internal {

[[nodiscard]] LabelLine label_line(std::string field,
                                   LabelText text,
                                   std::vector<std::string> rules);

/// The ingredients of a bake, its levain by its flour.
[[nodiscard]] std::vector<const larder::Ingredient*> eaten(const formula::Bake& bake);

[[nodiscard]] KnownInAmerica known_in_america(const formula::Bake& bake,
                                              const formula::LabelFields& fields);

/// Each field of the label that follows from the recipe.
[[nodiscard]] LabelLine ingredients_line(const formula::Bake& bake, const Label& label);
void add_quantity_lines(const Label& label, std::vector<LabelLine>& lines);
[[nodiscard]] LabelLine allergens_line(const Label& label);
[[nodiscard]] LabelLine sulphites_line(const formula::Bake& bake, const Label& label);
[[nodiscard]] LabelLine nutrition_line(const formula::Bake& bake, const Label& label);
[[nodiscard]] LabelLine weight_line(const Label& label);

/// The fields that no recipe tells: legal name, date, storage, lot, maker, origin, language.
void add_field_lines(const formula::Bake& bake, const Label& label, std::vector<LabelLine>& lines);

}  // namespace barm::shop::internal

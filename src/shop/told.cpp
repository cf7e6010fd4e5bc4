#include "shop/told.h"

#include <algorithm>

namespace barm::shop {

using larder::Ingredient;
using larder::Property;

std::vector<const Ingredient*> stated(const formula::Bake& bake) {
  std::vector<const Ingredient*> all;
  const auto add = [&](const Ingredient& one) {
    const bool known = std::any_of(
        all.begin(), all.end(), [&](const Ingredient* other) { return other->key == one.key; });
    if (!known) all.push_back(&one);
  };
  for (const formula::Portion& portion : bake.bowl) {
    add(portion.ingredient);
    if (portion.levain && bake.levain) add(bake.levain->flour);
  }
  return all;
}

std::set<std::string> allergens_told(const Ingredient& ingredient, Tongue tongue) {
  std::set<std::string> told(ingredient.allergens.begin(), ingredient.allergens.end());
  const larder::OnLabel& label = ingredient.on_label;
  told.merge(set_off_in(label.name + " " + label.list, tongue));
  told.merge(spoken_of_in(label.list, tongue));
  return told;
}

bool allergens_are_asked(const Ingredient& ingredient) {
  const larder::OnLabel& label = ingredient.on_label;
  return label.own && !label.allergens_said && ingredient.allergens.empty();
}

bool sulphite_is_asked(const Ingredient& ingredient, Tongue tongue) {
  const auto& figure = ingredient[Property::total_sulphite];
  const bool is_known = figure && figure->typical > 0;
  return ingredient.on_label.own && !is_known &&
         allergens_told(ingredient, tongue).contains("sulphites");
}

}  // namespace barm::shop

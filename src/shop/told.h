#pragma once
// What a bake file tells of the allergens in its ingredients.
#include <set>
#include <string>
#include <vector>

#include "formula/bake.h"
#include "shop/wording.h"

namespace barm::shop {

/// Every ingredient that the bake states, each once: those of the bowl, the levain as the starter
/// it is fed from, and the flour it is fed with.
[[nodiscard]] std::vector<const larder::Ingredient*> stated(const formula::Bake& bake);

/// The allergens of an ingredient: those of its table, those in braces in its name, and those that
/// its own list speaks of, in the language of the label or in English.
[[nodiscard]] std::set<std::string> allergens_told(const larder::Ingredient& ingredient,
                                                   Tongue tongue);

/// An ingredient of the baker's own of which the file says no allergen and not that it has none.
[[nodiscard]] bool allergens_are_asked(const larder::Ingredient& ingredient);

/// One of the baker's own that is told to hold sulphites, and of which no figure says how much.
[[nodiscard]] bool sulphite_is_asked(const larder::Ingredient& ingredient, Tongue tongue);

}  // namespace barm::shop

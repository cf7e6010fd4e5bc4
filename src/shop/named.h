#pragma once
// Of which ingredients the name of a bread speaks.
#include <string>
#include <string_view>
#include <vector>

#include "larder/ingredient.h"
#include "shop/wording.h"

namespace barm::shop {

/// Whether the bread's name speaks of each ingredient: by one of its names, "poppy seed"; by a word
/// that calls it, "raisin"; by its category, "fruit". Words that a longer name has taken speak of
/// nothing else: "poppy seed" does not call sunflower seed. One and many are the same. In another
/// language than English a word of the label's own name is looked for in it. Source:
/// label_words.csv, `calls`. Checked against: tests/shop/named_test.cpp.
[[nodiscard]] std::vector<bool> named_in(std::string_view bread,
                                         const std::vector<larder::Ingredient>& ingredients,
                                         Tongue tongue);

}  // namespace barm::shop

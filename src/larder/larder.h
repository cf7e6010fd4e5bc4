#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "data/source.h"
#include "larder/ingredient.h"

namespace barm::larder {

/// Every ingredient that is compiled in, in the order of data/larder/.
[[nodiscard]] std::span<const Ingredient> all();

/// The ingredient with that key, name or other name (case, blanks, hyphens and underscores do not
/// matter), or nullptr.
[[nodiscard]] const Ingredient* find(std::string_view words);

/// Up to `most` names that a person may have meant, nearest first.
[[nodiscard]] std::vector<std::string> near(std::string_view words, std::size_t most = 3);

/// The range to assume for a property that is unknown for this ingredient and cannot be taken as
/// zero: free sulphite of a wine, sorbate of a cheap cider. From data/larder/unknown.toml, by
/// group. Empty when the property may be taken as absent in that group.
[[nodiscard]] std::optional<Known> assumed(const Ingredient& ingredient, Property property);

/// Every value of data/larder/ with its unit and source, as lines of `barm source`:
/// "dry mead: strength", "drink, when unknown: sorbate". The texts live as long as the program.
[[nodiscard]] std::vector<data::Entry> entries();

}  // namespace barm::larder

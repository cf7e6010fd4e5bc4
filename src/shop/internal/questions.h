#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "shop/label.h"

namespace barm::shop::internal {

using Lines = std::vector<LabelLine>;

/// A question in words.
[[nodiscard]] LabelLine asks(std::string field, std::string text, std::vector<std::string> rules);

/// Whether the word stands in the text as a word of its own.
[[nodiscard]] bool holds_word(std::string_view where, std::string_view word);

[[nodiscard]] bool holds_drink(const formula::Bake& bake);

/// What the United Kingdom and the United States want asked beside the rest.
void of_the_kingdom(const formula::Bake& bake, const Label& label, Lines& lines);
void of_america(const formula::Bake& bake, Lines& lines);

}  // namespace barm::shop::internal

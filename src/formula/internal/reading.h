#pragma once
// What only the readers of a bake file share, beside formula/reading.h.
#include "formula/bake.h"
#include "formula/internal/document.h"
#include "formula/reading.h"

namespace barm::formula::internal {

/// `"meade" is not in the bowl. Near it: …`.
[[nodiscard]] std::string not_in_the_bowl(std::string_view word, const Bake& bake);

/// A temperature a dough can have: -5..60 C.
[[nodiscard]] Temperature dough_temperature(const Node& value);

/// A volume ratio above 1 and to 8, as number or in words.
[[nodiscard]] double rise_of(const Node& value);

}  // namespace barm::formula::internal

#pragma once
// What only the readers of a bake file share, beside formula/reading.h.
#include "formula/bake.h"
#include "formula/document.h"
#include "formula/reading.h"

namespace barm::formula::internal {

/// A temperature a dough can have: -5..60 C.
[[nodiscard]] Temperature dough_temperature(const Node& value);

/// A volume ratio above 1 and to 8, as number or in words.
[[nodiscard]] double rise_of(const Node& value);

}  // namespace barm::formula::internal

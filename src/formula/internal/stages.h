#pragma once
#include <vector>

#include "formula/document.h"
#include "formula/shelf.h"

namespace barm::formula::internal {

/// The [levain] table. Without a flour it is fed with `only_flour`, the one of the bowl; null where
/// the bowl has none or several.
[[nodiscard]] Levain read_levain(const Entry& entry, Shelf& shelf, const Entry* only_flour);

/// The [[stage]] list; `bake` holds the bowl already, for the order of mixing.
/// Stops when a stage stands before one that it follows.
[[nodiscard]] std::vector<Stage> read_stages(const Entry& entry, const Bake& bake);

}  // namespace barm::formula::internal

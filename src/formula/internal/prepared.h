#pragma once
#include <functional>

#include "formula/bottle.h"

namespace barm::formula::internal {

/// A drink of the file that is made of another before it goes in, from its [prepared] table: let go
/// flat, something steeped in it, simmered down, thinned, in this order. `take` gives an ingredient
/// by its name. Stops at what cannot be.
[[nodiscard]] Labelled prepared(
    const Entry& entry, const std::function<Labelled(std::string_view, const FilePlace&)>& take);

}  // namespace barm::formula::internal

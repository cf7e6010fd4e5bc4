#pragma once
#include <span>
#include <vector>

#include "base/result.h"
#include "formula/bake.h"
#include "larder/composition.h"

namespace barm::formula::internal {

/// The planned masses of the bowl [kg], same order as bake.bowl.
///
/// With F the mass of all flour, a levain's included, each line is a_i F + b_i:
///
///     percent of flour   a = share
///     percent of liquid  a = share times the liquid total
///     rest of the liquid a = liquid total - other shares, b = - other masses of liquid
///     weight             b = mass
///     flour in percent   a and b less the flour that levains hold
///
/// F follows from the flours when they are weights, else from `flour_total`, else from the dough
/// that is wanted: F = (D - sum b) / sum a.
/// Errors: bad_input (no flour, nothing that says how much, a line below zero, a levain that holds
/// more flour than the bowl).
[[nodiscard]] Result<std::vector<double>> weigh(const Bake& bake,
                                                std::span<const larder::Composition> settled);

/// Dough [kg] that the file or its pieces ask for, theirs with what is lost in handling and baking;
/// 0 where neither does.
[[nodiscard]] double dough_wanted(const Bake& bake);

}  // namespace barm::formula::internal

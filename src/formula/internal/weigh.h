#pragma once
#include <span>
#include <vector>

#include "base/result.h"
#include "formula/bake.h"
#include "larder/composition.h"

namespace barm::formula::internal {

/// The planned masses of the bowl [kg], same order as bake.bowl.
///
/// With F the mass of the flour that percent is of (all of it, a levain's included, or what is
/// weighed as flour), each line is a_i F + b_i:
///
///     percent of flour   a = share
///     percent of liquid  its share of the liquid total, which is a = share of flour or b = mass
///     rest of the liquid the liquid total less the other liquids
///     weight             b = mass
///     flour in percent   a and b less the flour that levains hold, where that is counted
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

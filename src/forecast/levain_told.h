#pragma once
#include "base/result.h"
#include "formula/bake.h"
#include "kinetics/parameter.h"

namespace barm::forecast {

/// What is known of a culture once its levain has told how fast it doubles and how far it rises in
/// its jar (docs/model/prior.md eq. 4, 5): of each number t told, one after the other,
///     ln t = d(z) + s e,   z ~ N(0, 1),   ln(theta/book) = c + F z
/// is linear about the likeliest z, and what is left of the doubt is I - g g'/(g'g + s^2).
///
/// d is the model's own answer for a typical starter and flour at the levain's temperature. Where a
/// bake tells neither, the prior as it is. Errors: bad_input where a levain of this flour does not
/// double by the model; those of levain_course. Checked against:
/// tests/forecast/levain_told_test.cpp.
[[nodiscard]] Result<kinetics::JointPrior> told_by_levain(const formula::Levain& levain,
                                                          const kinetics::JointPrior& prior);

}  // namespace barm::forecast

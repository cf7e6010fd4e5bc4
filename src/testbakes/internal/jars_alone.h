#pragma once
// Whether the jars alone show that a cause slows a dough; no law of growth plays a part in it.
#include <vector>

#include "testbakes/causes.h"
#include "testbakes/observed.h"

namespace barm::testbakes::internal {

/// For each cause the chance of doughs as slow as these, or slower, if it slowed nothing. Whatever
/// the law, a dough at a share s of the speed is at every height at 1/s of the time, so that
///
///     ln(hours to a height) = day + sum over causes b ln(1 + z / z_most),   b > 0 by a t test,
///
/// by least squares over doughs as they were mixed, with what is known of their scatter as four
/// degrees of freedom. A dough that never got so high counts as if it had just after the last look.
/// `doses` of the doughs by their number. 1 where nothing can be said.
[[nodiscard]] std::vector<double> chance_by_chance(const std::vector<Watched>& jars,
                                                   const std::vector<Doses>& doses,
                                                   const std::vector<Cause>& causes);

}  // namespace barm::testbakes::internal

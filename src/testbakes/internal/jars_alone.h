#pragma once
// Whether the jars alone show that a cause slows a dough; no law of growth plays a part in it.
#include <vector>

#include "testbakes/causes.h"
#include "testbakes/joint_model.h"
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

/// For each cause the chance that it acts, by the same hours and what was believed before:
///
///     ln(hours to a height) = day + sum over causes that act ln(1 + (z / z50)^k) + scatter,
///
/// ln z50 as each cause's prior has it, scatter as doughs and jars usually have, every combination
/// of causes weighed by Bayes, each also with one dough going its own way (own_way.h). By 4096
/// half-speed doses of each cause, evenly spread (Sobol), days as blocks.
[[nodiscard]] std::vector<double> chance_to_act(const std::vector<Watched>& jars,
                                                const std::vector<Doses>& doses,
                                                const std::vector<CausePrior>& causes);

}  // namespace barm::testbakes::internal

#pragma once
// The draws of a bake, ready to go their way.
#include <span>
#include <vector>

#include "base/result.h"
#include "forecast/options.h"
#include "forecast/timeline.h"
#include "forecast/warmth.h"

namespace barm::forecast::internal {

/// Draws the doughs of a plan; `made`: the first of them, where they are made already; `but`:
/// without these factors in the bowl. Errors: as draw(), cancelled.
[[nodiscard]] Result<std::vector<Walking>> draw_doughs(
    const Plan& plan,
    const Options& options,
    std::span<const Draw> made = {},
    const std::vector<kinetics::Factor>& but = {});

/// Each with the warmth of its own luck; keeps both.
[[nodiscard]] Crowd crowd_of(std::vector<Walking> doughs, Warmth warmth, Temperature kept);

/// At the accuracy at which many doughs are run.
[[nodiscard]] CrowdOptions crowd_options(const Proving& proving, const Options& options);

}  // namespace barm::forecast::internal

#pragma once
// The draws of a bake, ready to go their way.
#include <vector>

#include "base/result.h"
#include "forecast/made.h"
#include "forecast/options.h"
#include "forecast/timeline.h"

namespace barm::forecast::internal {

/// Draws the doughs of a plan; `but`: without these factors in the bowl. Errors: as draw(),
/// cancelled.
[[nodiscard]] Result<std::vector<Walking>> draw_doughs(
    const Plan& plan,
    const Options& options,
    Made& made,
    const std::vector<kinetics::Factor>& but = {});

/// At the accuracy at which many doughs are run.
[[nodiscard]] CrowdOptions crowd_options(const Proving& proving, const Options& options);

}  // namespace barm::forecast::internal

#pragma once
// Which steps of a dough that is mixed already have begun, as the day's planner names them.
#include <map>
#include <string>

#include "service/day/file.h"

namespace barm::service {

/// Every step that has begun, and when, by what was ticked off; a step before one that has begun,
/// which nobody ticked off, with it. A fold that nobody made within half an hour of its time is let
/// go, as the forecast does. Empty of a bake that is not mixed.
[[nodiscard]] std::map<std::string, time::Instant> steps_done(const KnownBake& bake,
                                                              time::Instant begins);

}  // namespace barm::service

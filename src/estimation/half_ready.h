#pragma once
// What would have become of a dough that was read, had something not been in its way.
#include <optional>
#include <vector>

#include "estimation/learn.h"
#include "kinetics/dough.h"

namespace barm::estimation {

/// When half of the doughs that agree with the readings reach the target, or would have without
/// these factors in their bowl or their place; empty: later than the horizon. Cultures and paces
/// are those learned. Errors: bad_input, no_convergence, cancelled.
[[nodiscard]] Result<std::optional<Time>> half_ready(const DoughToRead& dough,
                                                     const Readings& readings,
                                                     const Learned& learned,
                                                     const std::vector<kinetics::Factor>& without,
                                                     const LearnOptions& options = {});

}  // namespace barm::estimation

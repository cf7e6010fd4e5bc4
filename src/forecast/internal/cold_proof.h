#pragma once
#include <optional>
#include <span>
#include <vector>

#include "base/result.h"
#include "forecast/internal/walk.h"
#include "forecast/out_of_the_cold.h"
#include "forecast/plan.h"

namespace barm::forecast::internal {

/// The place in the plan of the cold in which the pieces proof: none where they are divided, shaped
/// or left in bulk after it, or where it is done.
[[nodiscard]] std::optional<std::size_t> cold_proof_of(const Plan& plan);

/// From the doughs as they go into that cold and as they came out of it. Empty where none came
/// out. Errors: no_convergence, cancelled.
[[nodiscard]] Result<std::optional<OutOfTheCold>> out_of_the_cold(
    const Plan& plan,
    std::size_t cold,
    std::span<const Walker> going_in,
    std::span<const Walker> coming_out,
    const std::vector<double>& weights,
    const WalkOptions& options);

}  // namespace barm::forecast::internal

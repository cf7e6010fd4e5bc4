#pragma once
#include "service/oven/internal/asked.h"
#include "service/oven/oven.h"

namespace barm::service::internal {

/// The most that are told one by one.
inline constexpr int most_loads = 12;

[[nodiscard]] Ripeness ripeness_of(const oven::Loaf& loaf);

/// The loads behind the first, each left in its last place until those before it are out. Errors:
/// as foresee_middle().
[[nodiscard]] Result<std::vector<FurtherLoad>> further_loads(const formula::Bake& aimed,
                                                             const forecast::Options& options,
                                                             const OvenAsked& asked,
                                                             int pieces);

}  // namespace barm::service::internal

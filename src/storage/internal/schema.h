#pragma once
#include <string_view>
#include <vector>

namespace barm::storage::internal {

/// Marks the file as a daybook (PRAGMA application_id): "Barm".
inline constexpr int application_id = 0x4261726D;

/// One step forward in SQL; after step n the file says user_version n+1. Steps are never changed
/// once released, only added.
[[nodiscard]] const std::vector<std::string_view>& schema_steps();

/// What a file says that has taken them all.
[[nodiscard]] int newest_version();

}  // namespace barm::storage::internal

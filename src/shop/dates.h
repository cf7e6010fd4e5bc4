#pragma once
#include <optional>
#include <string_view>

namespace barm::shop {

/// Days from one date to a later one, "2026-11-20" and "2026-11-25" make 5; nothing when one of
/// them is no date.
[[nodiscard]] std::optional<long> days_between(std::string_view from, std::string_view to);

}  // namespace barm::shop

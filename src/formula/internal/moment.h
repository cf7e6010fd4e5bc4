#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace barm::formula::internal {

/// "2026-11-28T07:00" from a local date and time, or "07:00" from a time, as written with or
/// without seconds; nothing when there is no such moment.
[[nodiscard]] std::optional<std::string> local_moment(std::string_view text);

}  // namespace barm::formula::internal

#pragma once
// A bare system has neither zone rules nor fonts. The portable archive brings both, in share/
// beside the program's folder.
#include <filesystem>
#include <optional>
#include <string>

namespace barm::cli {

/// What lies in share/ beside the folder of the program, when the system has it not at its usual
/// place.
[[nodiscard]] std::optional<std::filesystem::path> brought_along(
    const std::filesystem::path& usual_place,
    const std::filesystem::path& program,
    const std::filesystem::path& in_share);

/// "Europe/Berlin" for a link that leads to …/zoneinfo/Europe/Berlin, whether or not that is there.
[[nodiscard]] std::optional<std::string> zone_of_link(const std::filesystem::path& link);

/// Tells the libraries where it lies, in the environment; what stands there already is kept. To be
/// called before any thread begins.
void use_what_was_brought_along();

}  // namespace barm::cli

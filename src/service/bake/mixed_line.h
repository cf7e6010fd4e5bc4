#pragma once
#include <string>

#include "time/local_time.h"

namespace barm::service {

/// The text of a bake file with that moment of mixing, everything else left as it stands, comments
/// too. Unchanged where it says so already, or is no bake file in which that could be done.
[[nodiscard]] std::string mixed_at(const std::string& toml, const time::LocalTime& local);

}  // namespace barm::service

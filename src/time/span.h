#pragma once
#include <string>

#include "units/units.h"

namespace barm::time {

/// "5 h 15", "45 min", "under 15 min"; to the quarter of an hour, from two days on to the hour.
[[nodiscard]] std::string span(Time time);

}  // namespace barm::time

#pragma once
#include "time/instant.h"

namespace barm::storage {

using Moment = time::Instant;
inline constexpr std::int64_t a_day = time::seconds_a_day;

}  // namespace barm::storage

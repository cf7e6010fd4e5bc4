#pragma once

namespace barm::cli {

/// Exit statuses beside those of an error code (base/error.h).
inline constexpr int wrong_usage = 64;
inline constexpr int our_fault = 70;

}  // namespace barm::cli

#pragma once
#include "service/oven/oven.h"

namespace barm::service::internal {

/// What was measured of a request goes into the answer's `learned` and `known`; of a request `of`
/// an oven of the house, `keep` is its record with all that the request says and teaches of it.
/// Errors: those of oven::learn(), lessons_of(), parse_oven().
[[nodiscard]] Result<bool> learn_from(const OvenRequest& request, OvenAnswer& answer);

}  // namespace barm::service::internal

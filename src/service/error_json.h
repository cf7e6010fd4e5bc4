#pragma once
#include <nlohmann/json_fwd.hpp>

#include "base/error.h"

namespace barm::service {

/// `barm.error/1`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const Error& error);

}  // namespace barm::service

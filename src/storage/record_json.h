#pragma once
// Records as JSON: the field's name is the key, a moment is "2026-11-28T06:00:00Z", what is not
// known is null.
#include <nlohmann/json_fwd.hpp>

#include "base/result.h"
#include "storage/daybook.h"

namespace barm::storage {

/// Any struct of records.h.
template <class T>
[[nodiscard]] nlohmann::json to_json(const T& record);

[[nodiscard]] nlohmann::json to_json(const BakeLine& line);
[[nodiscard]] nlohmann::json to_json(const BakeVersion& version);
[[nodiscard]] nlohmann::json to_json(const Change& change);
[[nodiscard]] nlohmann::json to_json(const Deleted& deleted);

/// A record from an object. Keys may be left out and then keep what the struct starts with; keys
/// that no field has are refused, saved_at and deleted_at are taken as they are. Errors: bad_input
/// with the key.
template <class T>
[[nodiscard]] Result<T> from_json(const nlohmann::json& object);

}  // namespace barm::storage

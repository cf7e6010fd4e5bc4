#pragma once
// JSON from a zip of anybody's, read so that no text can take more memory than its records are
// worth: one record at a time, of bounded depth and bounded count.
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>

namespace barm::storage::internal {

/// One value. Throws LeaveTransaction with the file: no JSON, deeper than 16, over 200 000 parts.
[[nodiscard]] nlohmann::json parsed_json(std::string_view text, const std::string& file);

/// Each value of a list in its order. Throws LeaveTransaction with the file and the record's
/// number: as above, no list, over 2 000 000 records. How many there were.
std::size_t each_of_list(std::string_view text,
                         const std::string& file,
                         const std::function<void(nlohmann::json&)>& take);

}  // namespace barm::storage::internal

#pragma once
// A bake file as a JSON object and back: the keys of the file in its order, amounts as text.
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace barm::service {

/// A bake file made from an object. Line n came from the member `pointers[n - 1]` points to
/// (RFC 6901), relative to the object.
struct WrittenBake {
  std::string text;
  std::vector<std::string> pointers;
};

/// Errors: bad_input with the member's pointer (null, nested too deeply, a list that mixes tables
/// and other things).
[[nodiscard]] Result<WrittenBake> bake_text(const nlohmann::ordered_json& form);

/// Errors: as formula::parse_bake; `file` names it in errors.
[[nodiscard]] Result<nlohmann::ordered_json> bake_form(std::string_view text,
                                                       const std::string& file);

}  // namespace barm::service

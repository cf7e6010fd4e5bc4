#pragma once
#include <string>
#include <string_view>

#include "base/result.h"
#include "formula/bake.h"

namespace barm::formula {

/// Reads a bake file. Errors: not_found (no such file, a folder), bad_input with file:line:column
/// (wrong TOML, wrong UTF-8, unknown ingredient with near names, percentages without flour,
/// negative or absurd values, a drink with no strength, over 1 MB).
[[nodiscard]] Result<Bake> read_bake(const std::string& path);

/// The same from text; `file` names it in errors.
[[nodiscard]] Result<Bake> parse_bake(std::string_view text, const std::string& file);

}  // namespace barm::formula

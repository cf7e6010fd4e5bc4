#pragma once
#include <string>
#include <string_view>

#include "base/result.h"
#include "testbakes/test_bake.h"

namespace barm::testbakes {

/// Reads a test bake file and the bake file it names (docs/testbake-file.md). Errors: not_found (no
/// such file), bad_input with file:line:column.
[[nodiscard]] Result<TestBake> read_test_bake(const std::string& path);

/// The same from text; `file` names it in errors, and other files are looked for beside it.
[[nodiscard]] Result<TestBake> parse_test_bake(std::string_view text, const std::string& file);

/// The same with the base bake at hand: the text names no other file, and none is looked for.
[[nodiscard]] Result<TestBake> parse_test_bake(std::string_view text,
                                               const std::string& file,
                                               const formula::Bake& base);

/// One dough in words, for a candidate that stands in no file. `base` is what it is made from.
/// Errors: bad_input with `where`.
[[nodiscard]] Result<Recipe> parse_recipe(const std::string& words,
                                          const formula::Bake& base,
                                          const std::string& where);

}  // namespace barm::testbakes

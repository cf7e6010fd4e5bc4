#pragma once
// Tables as RFC 4180, safe to open in a spreadsheet: a text that such a program would take for a
// formula gets a ' in front, which is taken off again when it is read.
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace barm::storage::internal {

/// One row of texts with the line it begins on, 1 the first.
struct Row {
  std::vector<std::string> cells;
  std::size_t line = 0;
};

/// A text as one cell: quoted where it must be; with a ' in front where it begins with one of
/// = + - @ ' a tab or a line's end.
[[nodiscard]] std::string text_cell(const std::string& text);

/// The text of such a cell after reading.
[[nodiscard]] std::string text_of_cell(const std::string& cell);

/// Every row; blank lines are left out. Errors: bad_input with file:line (a quote that does not
/// end, something behind a quote, over 200 columns).
[[nodiscard]] Result<std::vector<Row>> read_csv(std::string_view text, const std::string& file);

}  // namespace barm::storage::internal

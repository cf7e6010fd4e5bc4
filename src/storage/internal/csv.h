#pragma once
// Tables as RFC 4180, safe to open in a spreadsheet: a text that such a program would take for a
// formula gets a ' in front, which is taken off again when it is read.
#include <functional>
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

/// Gives each row in turn, without blank lines, until one is refused. Errors: bad_input with
/// file:line (a quote that does not end, something behind a quote, over 200 columns, a cell over
/// 4 MB, over 2 000 000 rows), or what `take` refuses.
[[nodiscard]] Result<bool> read_csv(std::string_view text,
                                    const std::string& file,
                                    const std::function<Result<bool>(const Row&)>& take);

}  // namespace barm::storage::internal

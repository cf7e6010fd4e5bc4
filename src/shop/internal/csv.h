#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace barm::shop::internal {

struct CsvLine {
  int number = 0;  ///< in the file, from 1
  std::vector<std::string> cells;
};

/// Lines of a CSV as RFC 4180 has it; ';' parts cells where the first line has no ','. Empty lines
/// and lines that begin with '#' are left out. Errors: bad_input with file:line (a quote that is
/// not closed, over 1 MB).
[[nodiscard]] Result<std::vector<CsvLine>> parse_csv(std::string_view text,
                                                     const std::string& file);

}  // namespace barm::shop::internal

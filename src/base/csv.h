#pragma once
// A table that people or their loggers wrote, read cell by cell; who reads it says what is wrong
// with a cell and where it stands.
#include <string>
#include <string_view>
#include <vector>

namespace barm::csv {

/// A cell and where it stands.
struct Cell {
  std::string text;  ///< without quotes and blanks around it
  int line = 0;      ///< from 1
  int column = 0;    ///< characters from 1
};

using Row = std::vector<Cell>;

/// Rows of RFC 4180: cells by comma, semicolon or tab (whichever the first line holds most of), "
/// around cells that hold one, "" for a quote; lines that are empty or begin with # are left out.
/// `open_quote` is the line of a quote that never ends, or 0.
struct Table {
  std::vector<Row> rows;
  char separator = ',';
  int open_quote = 0;
};

[[nodiscard]] Table table_of(std::string_view text);

}  // namespace barm::csv

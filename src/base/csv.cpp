#include "base/csv.h"

#include <algorithm>

namespace barm::csv {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

char separator_of(std::string_view text) {
  // The first line that is not a remark.
  while (!text.empty() && (text.front() == '#' || text.front() == '\n' || text.front() == '\r')) {
    const std::size_t end = text.find('\n');
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  }
  const std::string_view line = text.substr(0, text.find('\n'));
  char best = ',';
  for (const char c : {';', '\t'}) {
    if (std::count(line.begin(), line.end(), c) > std::count(line.begin(), line.end(), best))
      best = c;
  }
  return best;
}

std::string trimmed(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\r'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return std::string(text);
}

}  // namespace

Table table_of(std::string_view text) {
  if (text.substr(0, byte_order_mark.size()) == byte_order_mark)
    text.remove_prefix(byte_order_mark.size());
  Table table;
  table.separator = separator_of(text);
  Row row;
  std::string cell;
  int line = 1;
  int column = 0;
  Cell begun{"", 1, 1};
  bool quoted = false;
  bool was_quoted = false;
  int quote_line = 0;
  const auto end_cell = [&] {
    begun.text = was_quoted ? cell : trimmed(cell);
    row.push_back(begun);
    cell.clear();
    was_quoted = false;
  };
  const auto end_row = [&] {
    end_cell();
    const bool empty =
        std::all_of(row.begin(), row.end(), [](const Cell& c) { return c.text.empty(); });
    if (!empty && row.front().text.substr(0, 1) != "#") table.rows.push_back(std::move(row));
    row.clear();
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    ++column;
    if (quoted) {
      if (c == '"' && i + 1 < text.size() && text[i + 1] == '"') {
        cell += '"';
        ++i;
        ++column;
      } else if (c == '"') {
        quoted = false;
      } else {
        cell += c;
        if (c == '\n') {
          ++line;
          column = 0;
        }
      }
    } else if (c == '"' && trimmed(cell).empty() && !was_quoted) {
      cell.clear();
      quoted = was_quoted = true;
      quote_line = line;
    } else if (c == table.separator) {
      end_cell();
      begun = {"", line, column + 1};
    } else if (c == '\n') {
      end_row();
      begun = {"", ++line, 1};
      column = 0;
    } else if (!was_quoted || !(c == ' ' || c == '\r')) {
      cell += c;
    }
  }
  if (quoted) table.open_quote = quote_line;
  if (!cell.empty() || !row.empty() || was_quoted) end_row();
  return table;
}

}  // namespace barm::csv

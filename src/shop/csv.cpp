#include "shop/csv.h"

namespace barm::shop {

namespace {

bool is_plain_number(std::string_view text) {
  if (!text.empty() && text.front() == '-') text.remove_prefix(1);
  return !text.empty() && text.find_first_not_of("0123456789.") == std::string_view::npos &&
         text.front() != '.';
}

bool could_be_run(std::string_view text) {
  constexpr std::string_view dangerous = "=+-@\t\r";
  return !text.empty() && dangerous.find(text.front()) != std::string_view::npos;
}

}  // namespace

std::string csv_cell(std::string_view text) {
  std::string out;
  if (could_be_run(text) && !is_plain_number(text)) out += '\'';
  out += text;
  if (out.find_first_of(",\"\r\n;") == std::string::npos) return out;
  std::string quoted = "\"";
  for (const char c : out) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

void CsvText::line(const std::vector<std::string>& cells) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) text_ += ',';
    text_ += csv_cell(cells[i]);
  }
  text_ += "\r\n";
}

}  // namespace barm::shop

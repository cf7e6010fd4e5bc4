#include "shop/csv.h"

#include <fmt/format.h>

#include "shop/internal/csv.h"

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

namespace internal {

namespace {

constexpr std::size_t most_bytes = 1'000'000;

char separator_of(std::string_view text) {
  const std::string_view first = text.substr(0, text.find('\n'));
  const bool comma = first.find(',') != std::string_view::npos;
  return !comma && first.find(';') != std::string_view::npos ? ';' : ',';
}

bool says_something(const CsvLine& line) {
  if (!line.cells.front().empty() && line.cells.front().front() == '#') return false;
  return line.cells.size() > 1 || !line.cells.front().empty();
}

}  // namespace

Result<std::vector<CsvLine>> parse_csv(std::string_view text, const std::string& file) {
  if (text.size() > most_bytes) return failure(ErrorCode::bad_input, file, "is over 1 MB");
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  const char separator = separator_of(text);
  std::vector<CsvLine> lines;
  CsvLine line{1, {""}};
  int number = 1;
  bool quoted = false;
  const auto finish = [&] {
    if (says_something(line)) lines.push_back(line);
    line = {number, {""}};
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '\n') ++number;
    if (c == '\0') return failure(ErrorCode::bad_input, file, "has a NUL byte: not a text file");
    if (c == '"' && quoted && text.substr(i + 1).starts_with('"')) {
      line.cells.back() += c;
      ++i;
    } else if (c == '"') {
      quoted = !quoted;
    } else if (c == separator && !quoted) {
      line.cells.emplace_back();
    } else if (c == '\n' && !quoted) {
      finish();
    } else if (c != '\r') {
      line.cells.back() += c;
    }
  }
  if (quoted) {
    return failure(ErrorCode::bad_input,
                   fmt::format("{}:{}", file, line.number),
                   "has a quote that is not closed");
  }
  finish();
  return lines;
}

}  // namespace internal

}  // namespace barm::shop

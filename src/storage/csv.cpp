#include "storage/internal/csv.h"

#include <fmt/format.h>

namespace barm::storage::internal {

namespace {

constexpr std::size_t most_columns = 200;
constexpr std::size_t most_rows = 2000000;
constexpr std::size_t most_cell = 4000000;

bool looks_like_a_formula(const std::string& text) {
  return !text.empty() && std::string_view("=+-@'\t\r\n").find(text[0]) != std::string_view::npos;
}

class Reader {
 public:
  Reader(std::string_view text, const std::string& file) : text_(text), file_(file) {
    if (text_.starts_with("\xEF\xBB\xBF")) text_.remove_prefix(3);
  }

  Result<bool> all(const std::function<Result<bool>(const Row&)>& take_row) {
    std::size_t rows = 0;
    while (!text_.empty()) {
      Row row{{}, line_};
      const auto more = read_row(row);
      if (!more) return failure(more);
      if (row.cells.size() == 1 && row.cells[0].empty()) continue;
      if (++rows > most_rows) return wrong("over 2 000 000 rows; that is no daybook");
      const auto taken = take_row(row);
      if (!taken) return failure(taken);
    }
    return true;
  }

 private:
  tl::unexpected<Error> wrong(const std::string& words) const {
    return failure(ErrorCode::bad_input, fmt::format("{}:{}", file_, line_), words);
  }

  bool at(char c) const { return !text_.empty() && text_.front() == c; }

  char take() {
    const char c = text_.front();
    text_.remove_prefix(1);
    if (c == '\n') ++line_;
    return c;
  }

  Result<bool> read_row(Row& row) {
    while (true) {
      auto cell = at('"') ? quoted() : Result<std::string>(plain());
      if (!cell) return failure(cell);
      if (cell->size() > most_cell) return wrong("a cell over 4 MB");
      row.cells.push_back(std::move(*cell));
      if (row.cells.size() > most_columns) return wrong("more than 200 columns");
      if (at(',')) {
        take();
        continue;
      }
      if (at('\r')) take();
      if (at('\n')) take();
      return true;
    }
  }

  std::string plain() {
    std::string cell;
    while (!text_.empty() && !at(',') && !at('\n') && !at('\r')) cell += take();
    return cell;
  }

  Result<std::string> quoted() {
    std::string cell;
    take();
    while (true) {
      if (text_.empty()) return wrong("a quote does not end");
      const char c = take();
      if (c != '"') {
        cell += c;
      } else if (at('"')) {
        cell += take();
      } else {
        break;
      }
    }
    if (!text_.empty() && !at(',') && !at('\n') && !at('\r'))
      return wrong("something stands behind a quoted cell");
    return cell;
  }

  std::string_view text_;
  const std::string& file_;
  std::size_t line_ = 1;
};

}  // namespace

std::string text_cell(const std::string& text) {
  std::string safe = looks_like_a_formula(text) ? "'" + text : text;
  const bool quote = safe.find_first_of(",\"\r\n") != std::string::npos || safe.starts_with(' ') ||
                     safe.ends_with(' ');
  if (!quote) return safe;
  std::string cell = "\"";
  for (const char c : safe) cell += c == '"' ? "\"\"" : std::string(1, c);
  return cell + "\"";
}

std::string text_of_cell(const std::string& cell) {
  return cell.starts_with('\'') ? cell.substr(1) : cell;
}

Result<bool> read_csv(std::string_view text,
                      const std::string& file,
                      const std::function<Result<bool>(const Row&)>& take) {
  return Reader(text, file).all(take);
}

}  // namespace barm::storage::internal

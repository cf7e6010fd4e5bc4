#include "storage/internal/tables.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>

#include "storage/internal/csv.h"
#include "storage/internal/fields.h"

namespace barm::storage::internal {

namespace {

std::string cell_of(const std::string& value) { return text_cell(value); }

std::string cell_of(double value) { return fmt::format("{}", value); }

std::string cell_of(std::int64_t value) { return fmt::format("{}", value); }

std::string cell_of(time::Instant value) { return value.text(); }

std::string cell_of(const std::vector<std::string>& value) {
  return text_cell(nlohmann::json(value).dump());
}

std::string cell_of(const std::map<std::string, double>& value) {
  return text_cell(nlohmann::json(value).dump());
}

template <class T>
std::string cell_of(const std::optional<T>& value) {
  return value ? cell_of(*value) : "";
}

template <class Number>
const char* read_number(const std::string& cell, Number& to, const char* right) {
  const char* end = cell.data() + cell.size();
  const auto [stop, error] = std::from_chars(cell.data(), end, to);
  return error == std::errc() && stop == end && !cell.empty() ? nullptr : right;
}

// Each reads a cell; otherwise what would be right.
const char* take(const std::string& cell, std::string& to) {
  to = text_of_cell(cell);
  return nullptr;
}

const char* take(const std::string& cell, double& to) {
  const char* wrong = read_number(cell, to, "a number");
  return wrong == nullptr && !std::isfinite(to) ? "a number" : wrong;
}

const char* take(const std::string& cell, std::int64_t& to) {
  return read_number(cell, to, "a whole number");
}

const char* take(const std::string& cell, time::Instant& to) {
  const auto moment = time::parse_instant(cell);
  if (!moment) return "a moment such as 2026-11-28T06:00:00Z";
  to = *moment;
  return nullptr;
}

template <class T>
const char* take_json(const std::string& cell, T& to, const char* right) {
  try {
    to = nlohmann::json::parse(text_of_cell(cell)).get<T>();
    return nullptr;
  } catch (const nlohmann::json::exception&) {
    return right;
  }
}

const char* take(const std::string& cell, std::vector<std::string>& to) {
  return take_json(cell, to, "a list such as [\"mead\"]");
}

const char* take(const std::string& cell, std::map<std::string, double>& to) {
  return take_json(cell, to, "a table such as {\"crumb\": 4}");
}

template <class T>
const char* take(const std::string& cell, std::optional<T>& to) {
  to.reset();
  if (cell.empty()) return nullptr;
  T value{};
  const char* wrong = take(cell, value);
  if (wrong == nullptr) to = std::move(value);
  return wrong;
}

template <class T, class F>
void each_column(T& record, const F& f) {
  f("id", record.id);
  f("revision", record.revision);
  f("saved_at", record.saved_at);
  f("deleted_at", record.deleted_at);
  each_field(record, f);
}

template <class T>
Result<T> record_of(const Row& row, const std::vector<std::string>& head, const std::string& file) {
  const std::string place = fmt::format("{}:{}", file, row.line);
  if (row.cells.size() != head.size()) {
    return failure(ErrorCode::bad_input,
                   place,
                   fmt::format("{} cells, the head has {}", row.cells.size(), head.size()));
  }
  T record;
  std::optional<Error> wrong;
  for (std::size_t i = 0; i < head.size(); ++i) {
    bool known = false;
    each_column(record, [&](const char* column, auto& value) {
      if (head[i] != column) return;
      known = true;
      const char* right = take(row.cells[i], value);
      if (right != nullptr && !wrong)
        wrong = Error{ErrorCode::bad_input, fmt::format("{} {}", place, column), right};
    });
    if (!known)
      return failure(ErrorCode::bad_input, file, fmt::format("'{}' is no column", head[i]));
    if (wrong) return tl::unexpected<Error>(*wrong);
  }
  return record;
}

}  // namespace

template <class T>
std::string to_csv(const std::vector<T>& records) {
  std::string text;
  T empty;
  each_column(empty, [&](const char* column, const auto&) {
    text += (text.empty() ? "" : ",") + std::string(column);
  });
  text += "\r\n";
  for (const T& record : records) {
    std::string row;
    bool first = true;
    each_column(record, [&](const char*, const auto& value) {
      if (!std::exchange(first, false)) row += ',';
      row += cell_of(value);
    });
    text += row + "\r\n";
  }
  return text;
}

template <class T>
Result<std::size_t> from_csv(std::string_view text,
                             const std::string& file,
                             const std::function<void(const T&)>& take_record) {
  std::optional<std::vector<std::string>> head;
  std::size_t records = 0;
  const auto read = read_csv(text, file, [&](const Row& row) -> Result<bool> {
    if (!head) {
      head = row.cells;
      return true;
    }
    const auto record = record_of<T>(row, *head, file);
    if (!record) return failure(record);
    ++records;
    take_record(*record);
    return true;
  });
  if (!read) return failure(read);
  if (!head) return failure(ErrorCode::bad_input, file, "needs a head of column names");
  return records;
}

// NOLINTBEGIN(bugprone-macro-parentheses): a type cannot stand in them
#define BARM_INSTANTIATE(T)                           \
  template std::string to_csv(const std::vector<T>&); \
  template Result<std::size_t> from_csv(              \
      std::string_view, const std::string&, const std::function<void(const T&)>&);
// NOLINTEND(bugprone-macro-parentheses)

BARM_EACH_RECORD(BARM_INSTANTIATE)
#undef BARM_INSTANTIATE

}  // namespace barm::storage::internal

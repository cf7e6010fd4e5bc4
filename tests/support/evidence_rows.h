#pragma once
// data/evidence/: what others have measured, read and checked. A mistake stops with file and line,
// what is wrong and what would be right.
#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <map>
#include <optional>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv.h"

namespace barm::test {

/// The text of a file of data/evidence/.
inline std::string evidence_text(const std::string& folder, const std::string& name) {
  std::ifstream in(folder + "/" + name);
  if (!in) throw std::runtime_error(folder + "/" + name + ": cannot be read");
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

[[noreturn]] inline void stop_at(std::string_view file, int line, const std::string& message) {
  throw std::runtime_error(fmt::format("{}:{}: {}", file, line, message));
}

/// A table whose columns are known: every column of `columns`, in that order, and no other.
class EvidenceTable {
 public:
  EvidenceTable(std::string_view text, std::string file, std::vector<std::string> columns)
      : file_(std::move(file)), columns_(std::move(columns)) {
    csv::Table table = csv::table_of(text);
    if (table.open_quote > 0) stop_at(file_, table.open_quote, "this quote never ends");
    if (table.rows.empty()) stop_at(file_, 1, "no header");
    check_header(table.rows.front());
    rows_.assign(table.rows.begin() + 1, table.rows.end());
    if (rows_.empty()) stop_at(file_, table.rows.front().front().line, "no rows");
    for (const csv::Row& row : rows_) {
      if (row.size() != columns_.size())
        stop_at(file_,
                row.front().line,
                fmt::format("{} cells, but the header names {}", row.size(), columns_.size()));
    }
  }

  [[nodiscard]] std::size_t size() const { return rows_.size(); }

  [[nodiscard]] int line(std::size_t row) const { return rows_[row].front().line; }

  [[nodiscard]] const std::string& text(std::size_t row, std::string_view column) const {
    const auto at = std::find(columns_.begin(), columns_.end(), column);
    return rows_[row].at(static_cast<std::size_t>(at - columns_.begin())).text;
  }

  /// The cell as a number, where it is one from the first letter to the last.
  [[nodiscard]] std::optional<double> number(std::size_t row, std::string_view column) const {
    const std::string& cell = text(row, column);
    char* end = nullptr;
    const double value = std::strtod(cell.c_str(), &end);
    if (cell.empty() || *end != '\0') return std::nullopt;
    return value;
  }

  [[noreturn]] void stop(std::size_t row, const std::string& message) const {
    stop_at(file_, line(row), message);
  }

 private:
  void check_header(const csv::Row& header) const {
    for (const csv::Cell& cell : header) {
      if (std::find(columns_.begin(), columns_.end(), cell.text) == columns_.end())
        stop_at(
            file_,
            cell.line,
            fmt::format(
                "unknown column '{}'; the columns are {}", cell.text, fmt::join(columns_, ", ")));
    }
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      if (i >= header.size() || header[i].text != columns_[i])
        stop_at(
            file_, header.front().line, fmt::format("column {} is to be '{}'", i + 1, columns_[i]));
    }
  }

  std::string file_;
  std::vector<std::string> columns_;
  std::vector<csv::Row> rows_;
};

enum class Use { askable, parameter_only, words };

/// One measurement of measured.csv, as far as it is asked and scored.
struct EvidenceRow {
  std::string id, same_as, source, kind, organism_or_flour, unit;
  Use use = Use::words;
  std::optional<double> value, hours;  ///< of the columns value and time_h, where they are numbers
  int line = 0;
};

using EvidenceRows = std::vector<EvidenceRow>;

inline const EvidenceRow* row_of(const EvidenceRows& rows, std::string_view id) {
  const auto found =
      std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return row.id == id; });
  return found == rows.end() ? nullptr : &*found;
}

namespace evidence {

inline Use use_of(const EvidenceTable& table, std::size_t row) {
  const std::string& word = table.text(row, "use");
  if (word == "askable") return Use::askable;
  if (word == "parameter-only") return Use::parameter_only;
  if (word == "words") return Use::words;
  table.stop(row, "use is askable, parameter-only or words, not '" + word + "'");
}

inline void check_source(const EvidenceTable& table,
                         std::size_t row,
                         const std::set<std::string>& known) {
  const std::string& key = table.text(row, "source");
  if (!known.contains(key))
    table.stop(row, "unknown source '" + key + "'; it is to stand in data/sources.toml");
}

// A duplicate names the row it counts with: one that counts itself.
inline void check_same(const EvidenceTable& table, const EvidenceRows& rows) {
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].same_as.empty()) continue;
    const EvidenceRow* first = row_of(rows, rows[i].same_as);
    if (first == nullptr)
      table.stop(i, "same_as names '" + rows[i].same_as + "', which is not there");
    if (!first->same_as.empty())
      table.stop(i, rows[i].same_as + " is itself the same as " + first->same_as);
    if (rows[i].use == Use::askable)
      table.stop(i, "a row that is the same as another counts with that one: not askable");
  }
}

}  // namespace evidence

/// The keys of data/sources.toml, which lies beside the folder.
inline std::set<std::string> evidence_sources(const std::string& folder) {
  std::set<std::string> keys;
  for (const auto& [key, source] : toml::parse_file(folder + "/../sources.toml"))
    keys.insert(std::string(key.str()));
  return keys;
}

/// measured.csv. `file` is what a mistake is said to be in.
inline EvidenceRows evidence_rows(std::string_view text,
                                  const std::string& file,
                                  const std::set<std::string>& sources) {
  const EvidenceTable table(text,
                            file,
                            {"id",
                             "use",
                             "same_as",
                             "why",
                             "source",
                             "kind",
                             "place",
                             "licence",
                             "organism_or_flour",
                             "inoculum",
                             "hydration",
                             "salt_pct",
                             "temperature_C",
                             "dose",
                             "dose_unit",
                             "time_h",
                             "value",
                             "unit",
                             "sd_or_range",
                             "assumed",
                             "read_how"});
  EvidenceRows rows;
  std::set<std::string> ids;
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (!ids.insert(table.text(i, "id")).second)
      table.stop(i, "a second row " + table.text(i, "id"));
    for (const char* column : {"unit", "kind", "place", "licence", "read_how"}) {
      if (table.text(i, column).empty()) table.stop(i, fmt::format("{} is missing", column));
    }
    evidence::check_source(table, i, sources);
    EvidenceRow row{table.text(i, "id"),
                    table.text(i, "same_as"),
                    table.text(i, "source"),
                    table.text(i, "kind"),
                    table.text(i, "organism_or_flour"),
                    table.text(i, "unit"),
                    evidence::use_of(table, i),
                    table.number(i, "value"),
                    table.number(i, "time_h"),
                    table.line(i)};
    if (row.use != Use::askable && table.text(i, "why").empty())
      table.stop(i, "why it cannot be asked is missing");
    rows.push_back(std::move(row));
  }
  evidence::check_same(table, rows);
  return rows;
}

inline EvidenceRows evidence_rows(const std::string& folder) {
  return evidence_rows(
      evidence_text(folder, "measured.csv"), "measured.csv", evidence_sources(folder));
}

/// Readings of a curve in data/evidence/, by number of rows; checks columns and numbers.
inline EvidenceTable evidence_curve(std::string_view text,
                                    const std::string& file,
                                    std::vector<std::string> columns) {
  const std::vector<std::string> numbers(columns.end() - 2, columns.end());
  EvidenceTable table(text, file, std::move(columns));
  for (std::size_t i = 0; i < table.size(); ++i) {
    for (const std::string& column : numbers) {
      if (!table.number(i, column)) table.stop(i, column + " is not a number");
    }
  }
  return table;
}

}  // namespace barm::test

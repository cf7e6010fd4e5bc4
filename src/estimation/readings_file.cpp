// A file of readings.
#include <fmt/format.h>

#include <algorithm>

#include "base/csv.h"
#include "base/file_text.h"
#include "estimation/internal/cells.h"
#include "estimation/internal/thin.h"

namespace barm::estimation {

namespace {

using csv::Cell;
using csv::Row;
using internal::Column;
using internal::Kind;

// "Height [mm]", "height (mm)", "height_mm" into name and unit.
std::pair<std::string, std::string> name_and_unit(const std::string& title) {
  std::string name = internal::folded(title);
  std::string unit;
  const std::size_t open = name.find_first_of("[(");
  if (open != std::string::npos) {
    const std::size_t close = name.find_first_of("])", open);
    unit = name.substr(open + 1, close == std::string::npos ? close : close - open - 1);
    name.resize(open);
  } else if (const std::size_t blank = name.rfind(' '); blank != std::string::npos) {
    const std::string last = name.substr(blank + 1);
    for (const char* known : {"mm", "cm", "in", "c", "f", "h", "min", "%", "x"}) {
      if (last != known) continue;
      unit = last;
      name.resize(blank);
    }
  }
  while (!name.empty() && name.back() == ' ') name.pop_back();
  if (unit.substr(0, 2) == "\xC2\xB0") unit = unit.substr(2);  // the degree sign
  return {name, unit};
}

bool one_of(const std::string& name, std::initializer_list<const char*> names) {
  return std::any_of(names.begin(), names.end(), [&](const char* n) { return name == n; });
}

Result<Column> column_of(const Cell& cell, const std::string& file) {
  const auto [name, unit] = name_and_unit(cell.text);
  const auto bad = [&, n = name](const char* right) {
    return failure(ErrorCode::bad_input,
                   FilePlace{file, cell.line, cell.column},
                   fmt::format("column '{}' needs its unit: {}", cell.text, right));
  };
  Column column{Kind::unused, cell.text, unit};
  if (one_of(name, {"time", "local time", "clock", "when", "at", "date and time", "timestamp"})) {
    column.kind = Kind::time;
    if (unit == "h" || unit == "hours") column.kind = Kind::hours;
    if (unit == "min" || unit == "minutes") column.kind = Kind::minutes;
  } else if (one_of(name, {"hours", "h", "hours since mixing", "since mixing", "t"})) {
    column.kind = unit == "min" ? Kind::minutes : Kind::hours;
  } else if (one_of(name, {"minutes", "min", "minutes since mixing"})) {
    column.kind = Kind::minutes;
  } else if (one_of(name, {"height", "edge", "level", "sample height"})) {
    column.kind = Kind::height;
    if (!one_of(unit, {"mm", "cm", "in"})) return bad("height [mm], height [cm] or height [in]");
  } else if (one_of(name, {"dome", "top"})) {
    column.kind = Kind::dome;
    if (!one_of(unit, {"mm", "cm", "in"})) return bad("dome [mm], dome [cm] or dome [in]");
  } else if (one_of(name, {"ratio", "times", "volume"})) {
    column.kind = Kind::ratio;
  } else if (one_of(name, {"rise", "growth"})) {
    column.kind = unit == "%" ? Kind::growth : Kind::ratio;
    if (unit.empty()) return bad("rise [%] above the start, or ratio [x] of it");
  } else if (one_of(name, {"sample", "jar", "sample temperature", "jar temperature"})) {
    column.kind = Kind::sample;
  } else if (one_of(name, {"bulk", "dough", "bulk temperature", "dough temperature"})) {
    column.kind = Kind::bulk;
  } else if (one_of(name, {"room", "air", "room temperature"})) {
    column.kind = Kind::room;
  } else if (name == "ph") {
    column.kind = Kind::ph;
  } else if (one_of(name, {"ph strip", "strip"})) {
    column.kind = Kind::ph_strip;
  } else if (one_of(name, {"remark", "remarks", "note", "notes", "comment"})) {
    column.kind = Kind::remark;
  }
  const bool warmth =
      column.kind == Kind::sample || column.kind == Kind::bulk || column.kind == Kind::room;
  if (warmth && unit != "c" && unit != "f")
    return bad(fmt::format("{} [C] or {} [F]", name, name).c_str());
  return column;
}

// Hours since mixing of a cell of time; `after` is the row before.
Result<Time> time_of(Kind kind, const std::string& text, const time::WallClock& clock, Time after) {
  if (kind == Kind::time && time::looks_like_clock(text)) return clock.since_mixing(text, after);
  const auto read = internal::number(text);
  if (!read) {
    return failure(ErrorCode::bad_input,
                   "",
                   fmt::format("'{}' is no time; write 14:30, 2026-11-28T14:30 or hours since "
                               "mixing",
                               text));
  }
  return kind == Kind::minutes ? *read / 60 * hour : *read * hour;
}

// The mean height of a dome with its foot at `edge`: half the cap, as long as it is flat.
Length mean_height(Length edge, double dome) {
  return 0.5 * (edge.in(millimetre) + dome) * millimetre;
}

class Parser {
 public:
  Parser(std::string file, const ReadingOptions& options)
      : file_(std::move(file)), options_(options) {}

  Result<Readings> parse(std::string_view text) {
    const csv::Table table = csv::table_of(text);
    if (table.open_quote > 0) {
      return failure(ErrorCode::bad_input,
                     fmt::format("{}:{}", file_, table.open_quote),
                     "a quote \" opens here and never closes");
    }
    if (table.rows.empty())
      return failure(ErrorCode::bad_input,
                     file_,
                     "no line of names; the first line says what the columns are, such as "
                     "time,height [mm]");
    const auto columns = read_columns(table.rows.front());
    if (!columns) return failure(columns);
    for (std::size_t i = 1; i < table.rows.size(); ++i) {
      auto row = read_row(table.rows[i], *columns);
      if (!row && !options_.keep_good_rows) return failure(row);
      if (!row) {
        out_.left_out.push_back(row.error());
        continue;
      }
      after_ = row->at;
      out_.rows.push_back(std::move(*row));
    }
    out_.rows_in_file = table.rows.size() - 1;
    if (out_.rows.empty())
      return failure(ErrorCode::bad_input, file_, "no row of readings that could be used");
    return std::move(out_);
  }

 private:
  Result<std::vector<Column>> read_columns(const Row& titles) {
    std::vector<Column> columns;
    bool time = false;
    bool anything = false;
    for (const Cell& cell : titles) {
      auto column = column_of(cell, file_);
      if (!column) return failure(column);
      time = time || column->kind == Kind::time || column->kind == Kind::hours ||
             column->kind == Kind::minutes;
      anything = anything || (column->kind >= Kind::height && column->kind <= Kind::ph_strip);
      if (column->kind == Kind::unused && !cell.text.empty())
        out_.notes.push_back(fmt::format("column '{}' is not used", cell.text));
      columns.push_back(std::move(*column));
    }
    const std::string where = fmt::format("{}:{}", file_, titles.front().line);
    if (!time)
      return failure(ErrorCode::bad_input,
                     where,
                     "no column of time; call one 'time' (on the clock) or 'hours' (since mixing)");
    if (!anything)
      return failure(ErrorCode::bad_input,
                     where,
                     "no column to learn from; call one 'height [mm]', 'ratio', 'sample [C]', "
                     "'bulk [C]' or 'pH'");
    return columns;
  }

  Result<Reading> read_row(const Row& cells, const std::vector<Column>& columns) const {
    Reading row;
    row.line = cells.front().line;
    const auto bad = [&](const Cell& cell, const std::string& column, const std::string& words) {
      return failure(ErrorCode::bad_input,
                     FilePlace{file_, cell.line, cell.column},
                     fmt::format("{}: {}", column, words));
    };
    if (cells.size() > columns.size()) {
      return failure(ErrorCode::bad_input,
                     FilePlace{file_, row.line, cells[columns.size()].column},
                     fmt::format("{} cells in a table of {} columns; a decimal comma needs another "
                                 "separator or quotes",
                                 cells.size(),
                                 columns.size()));
    }
    bool timed = false;
    std::optional<double> dome;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const Cell& cell = cells[i];
      const Column& column = columns[i];
      if (column.kind == Kind::unused || cell.text.empty()) continue;
      if (column.kind == Kind::remark) {
        row.remark = cell.text;
      } else if (column.kind <= Kind::minutes) {
        const auto at = time_of(column.kind, cell.text, options_.clock, after_);
        if (!at) return bad(cell, column.title, at.error().message);
        const auto wrong = internal::wrong_time(*at, after_);
        if (wrong) return bad(cell, column.title, *wrong);
        row.at = *at;
        timed = true;
      } else {
        const auto wrong = internal::set_number(row, column, cell.text, dome);
        if (wrong) return bad(cell, column.title, *wrong);
      }
    }
    if (!timed) return bad(cells.front(), "time", "this row has no time");
    if (dome && row.height && *dome < row.height->in(millimetre))
      return bad(cells.front(), "dome", "the top of the dome lies below its edge");
    if (dome) row.height = row.height ? mean_height(*row.height, *dome) : *dome * millimetre;
    return row;
  }

  std::string file_;
  const ReadingOptions& options_;
  Readings out_;
  Time after_;
};

}  // namespace

Result<Readings> parse_readings(std::string_view text,
                                const std::string& file,
                                const ReadingOptions& options) {
  auto readings = Parser(file, options).parse(text);
  if (!readings) return readings;
  internal::find_mark(*readings, options);
  internal::thin(*readings);
  return readings;
}

Result<Readings> read_readings(const std::string& path, const ReadingOptions& options) {
  constexpr std::size_t most_bytes = 10'000'000;  // a logger's whole summer
  const auto text = file_text(path, most_bytes);
  if (!text) return failure(text);
  return parse_readings(*text, path, options);
}

}  // namespace barm::estimation

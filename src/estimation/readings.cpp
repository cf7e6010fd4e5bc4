#include "estimation/readings.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <sstream>

#include "base/csv.h"
#include "base/file_text.h"
#include "estimation/internal/thin.h"

namespace barm::estimation {

namespace {

using csv::Cell;
using csv::Row;

enum class Kind {
  time,  // a local time, or hours when it is a number
  hours,
  minutes,
  height,
  dome,
  ratio,
  growth,  // percent above the start
  sample,
  bulk,
  room,
  ph,
  ph_strip,
  remark,
  unused,
};

struct Column {
  Kind kind = Kind::unused;
  std::string title;
  std::string unit;
};

constexpr double ph_doubt_of_meter = 0.1;
constexpr double ph_doubt_of_strip = 0.3;
constexpr double longest = 24.0 * 14;  // h

std::string folded(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const auto lower = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    out += lower == '_' ? ' ' : lower;
  }
  return out;
}

// "Height [mm]", "height (mm)", "height_mm" into name and unit.
std::pair<std::string, std::string> name_and_unit(const std::string& title) {
  std::string name = folded(title);
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
                   fmt::format("{}:{}:{}", file, cell.line, cell.column),
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

// A number with point or comma, nothing behind it.
std::optional<double> number(std::string text) {
  const auto commas = std::count(text.begin(), text.end(), ',');
  if (commas > 1 || (commas == 1 && text.find('.') != std::string::npos)) return std::nullopt;
  std::replace(text.begin(), text.end(), ',', '.');
  std::istringstream in(text);
  in.imbue(std::locale::classic());
  double value = 0;
  in >> value;
  if (in.fail() || !in.eof() || !std::isfinite(value)) return std::nullopt;
  return value;
}

double millimetres(double value, const std::string& unit) {
  if (unit == "cm") return 10 * value;
  return unit == "in" ? 25.4 * value : value;
}

double celsius(double value, const std::string& unit) {
  return unit == "f" ? (value - 32) / 1.8 : value;
}

std::optional<std::string> outside(double value, double low, double high, const char* what) {
  if (value >= low && value <= high) return std::nullopt;
  return fmt::format("{:g} is no {}; between {:g} and {:g} it would be", value, what, low, high);
}

// Sets one cell; the words of what is wrong with it, or nothing.
std::optional<std::string> set_number(Reading& row,
                                      const Column& column,
                                      const std::string& text,
                                      std::optional<double>& dome) {
  const auto read = number(text);
  if (!read) return fmt::format("'{}' is no number", text);
  const double value = *read;
  std::optional<std::string> wrong;
  switch (column.kind) {
    case Kind::height: {
      const double mm = millimetres(value, column.unit);
      wrong = outside(mm, 1, 1000, "height of a sample in mm");
      row.height = mm * millimetre;
      break;
    }
    case Kind::dome:
      dome = millimetres(value, column.unit);
      wrong = outside(*dome, 1, 1000, "height of a sample in mm");
      break;
    case Kind::ratio:
      wrong = outside(value, 0.2, 20, "ratio of heights");
      row.ratio = value;
      break;
    case Kind::growth:
      wrong = outside(value, -80, 1900, "rise in %");
      row.ratio = 1 + value / 100;
      break;
    case Kind::sample:
    case Kind::bulk:
    case Kind::room: {
      const double c = celsius(value, column.unit);
      wrong = outside(c, -5, 60, "temperature of a dough or its room in C");
      const auto t = Temperature::from_celsius(c);
      (column.kind == Kind::sample ? row.sample
       : column.kind == Kind::bulk ? row.bulk
                                   : row.room) = t;
      break;
    }
    case Kind::ph:
    case Kind::ph_strip:
      wrong = outside(value, 2.5, 8.5, "pH of a dough");
      row.ph = value;
      row.ph_doubt = column.kind == Kind::ph ? ph_doubt_of_meter : ph_doubt_of_strip;
      break;
    default:
      break;
  }
  return wrong;
}

// Hours since mixing of a cell of time; `after` is the row before.
Result<Time> time_of(Kind kind, const std::string& text, const time::WallClock& clock, Time after) {
  if (kind == Kind::time && time::looks_like_clock(text)) return clock.since_mixing(text, after);
  const auto read = number(text);
  if (!read) {
    return failure(ErrorCode::bad_input,
                   "",
                   fmt::format("'{}' is no time; write 14:30, 2026-11-28T14:30 or hours since "
                               "mixing",
                               text));
  }
  return kind == Kind::minutes ? *read / 60 * hour : *read * hour;
}

// As the daybook keeps it, so that the same reading says the same by whichever way it came.
Time to_the_second(double seconds) { return std::round(seconds) * second; }

std::string said(Time at) { return fmt::format("{:.2f} h", at.in(hour)); }

std::optional<std::string> wrong_time(Time at, Time after) {
  if (at < Time{}) return fmt::format("{} is before mixing", said(at));
  if (at.in(hour) > longest) return fmt::format("{} is more than 14 days after mixing", said(at));
  if (at.in(second) < after.in(second)-0.5)
    return fmt::format(
        "time runs backwards: {} after {}; put the rows in order of time, and where the clock was "
        "changed in the night name the place, such as --zone Europe/Berlin",
        said(at),
        said(after));
  return std::nullopt;
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
                     fmt::format("{}:{}:{}", file_, cell.line, cell.column),
                     fmt::format("{}: {}", column, words));
    };
    if (cells.size() > columns.size()) {
      return failure(ErrorCode::bad_input,
                     fmt::format("{}:{}:{}", file_, row.line, cells[columns.size()].column),
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
        const auto wrong = wrong_time(*at, after_);
        if (wrong) return bad(cell, column.title, *wrong);
        row.at = *at;
        timed = true;
      } else {
        const auto wrong = set_number(row, column, cell.text, dome);
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

// The first height at the start sets the mark.
void find_mark(Readings& readings, const ReadingOptions& options) {
  if (options.start_mark) {
    readings.start_mark = options.start_mark;
    return;
  }
  for (const Reading& row : readings.rows) {
    if (row.at.in(hour) > at_the_start) return;
    if (!row.height) continue;
    readings.start_mark = row.height;
    return;
  }
}

// Leaves out what cannot be, each number by itself.
void keep_what_can_be(Reading& row, std::vector<Error>& left_out) {
  const std::string where = fmt::format("reading at {}", said(row.at));
  const auto keep = [&](auto& value, double number, double low, double high, const char* what) {
    const auto wrong = outside(number, low, high, what);
    if (!wrong) return;
    left_out.push_back({ErrorCode::bad_input, where, *wrong});
    value.reset();
  };
  if (row.height) keep(row.height, row.height->in(millimetre), 1, 1000, "height of a sample in mm");
  if (row.ratio) keep(row.ratio, *row.ratio, 0.2, 20, "ratio of heights");
  for (auto* const warmth : {&row.sample, &row.bulk, &row.room}) {
    if (*warmth)
      keep(*warmth, (*warmth)->celsius(), -5, 60, "temperature of a dough or its room in C");
  }
  if (row.ph) keep(row.ph, *row.ph, 2.5, 8.5, "pH of a dough");
}

}  // namespace

Readings readings_from(std::vector<Reading> rows, const ReadingOptions& options) {
  Readings readings;
  std::stable_sort(
      rows.begin(), rows.end(), [](const Reading& a, const Reading& b) { return a.at < b.at; });
  readings.rows_in_file = rows.size();
  for (Reading& row : rows) {
    if (const auto wrong = wrong_time(row.at, Time{})) {
      readings.left_out.push_back({ErrorCode::bad_input, "reading", *wrong});
      continue;
    }
    keep_what_can_be(row, readings.left_out);
    if (row.height || row.ratio || row.sample || row.bulk || row.room || row.ph)
      readings.rows.push_back(std::move(row));
  }
  find_mark(readings, options);
  internal::thin(readings);
  return readings;
}

double Readings::last_hour() const { return rows.empty() ? 0 : rows.back().at.in(hour); }

std::size_t Readings::heights() const {
  return static_cast<std::size_t>(std::count_if(
      rows.begin(), rows.end(), [](const Reading& row) { return row.height || row.ratio; }));
}

Result<Readings> parse_readings(std::string_view text,
                                const std::string& file,
                                const ReadingOptions& options) {
  auto readings = Parser(file, options).parse(text);
  if (!readings) return readings;
  find_mark(*readings, options);
  internal::thin(*readings);
  return readings;
}

Result<Readings> read_readings(const std::string& path, const ReadingOptions& options) {
  constexpr std::size_t most_bytes = 10'000'000;  // a logger's whole summer
  const auto text = file_text(path, most_bytes);
  if (!text) return failure(text);
  return parse_readings(*text, path, options);
}

namespace {

bool is_place(const std::string& word) { return folded(word) == "bulk" || folded(word) == "room"; }

}  // namespace

Result<Reading> parse_reading(std::string_view text, const ReadingOptions& options) {
  const auto bad = [&](const std::string& words) {
    return failure(
        ErrorCode::bad_input,
        "--reading",
        fmt::format("'{}': {}; write '14:30 52 mm', '6.5h 1.4x' or '3h pH 4.9'", text, words));
  };
  std::istringstream in{std::string(text)};
  std::vector<std::string> words{std::istream_iterator<std::string>(in), {}};
  // "52 mm", "pH 4.9" and "bulk 24 C" become one word.
  std::vector<std::string> joined;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool place_first = is_place(words[i]) && i + 1 < words.size();
    if (place_first) {
      const bool apart = number(words[i + 1]).has_value() && i + 2 < words.size();
      joined.push_back(words[i] + words[i + 1] + (apart ? words[i + 2] : ""));
      i += apart ? 2 : 1;
      continue;
    }
    const bool number_first = number(words[i]).has_value() && i + 1 < words.size();
    const bool ph_first = folded(words[i]) == "ph" && i + 1 < words.size();
    if (ph_first)
      joined.push_back("ph" + words[i + 1]);
    else if (number_first)
      joined.push_back(words[i] + words[i + 1]);
    else
      joined.push_back(words[i]);
    if (number_first || ph_first) ++i;
  }
  if (joined.size() < 2) return bad("a time and something that was read");
  Reading row;
  const std::string& when = joined.front();
  const auto with_unit = [](const std::string& word, std::string_view unit) {
    const std::string low = folded(word);
    if (low.size() <= unit.size() || low.substr(low.size() - unit.size()) != unit)
      return std::optional<double>();
    return number(low.substr(0, low.size() - unit.size()));
  };
  if (time::looks_like_clock(when)) {
    const auto at = options.clock.since_mixing(when, Time{});
    if (!at) return bad(at.error().message);
    row.at = *at;
  } else if (const auto hours = with_unit(when, "h")) {
    row.at = to_the_second(*hours * 3600);
  } else if (const auto minutes = with_unit(when, "min")) {
    row.at = to_the_second(*minutes * 60);
  } else {
    return bad(fmt::format("'{}' is no time", when));
  }
  if (const auto wrong = wrong_time(row.at, Time{})) return bad(*wrong);
  const std::array<std::pair<const char*, Column>, 6> units{{
      {"mm", {Kind::height, "height", "mm"}},
      {"cm", {Kind::height, "height", "cm"}},
      {"x", {Kind::ratio, "ratio", "x"}},
      {"%", {Kind::growth, "rise", "%"}},
      {"c", {Kind::sample, "sample", "c"}},
      {"f", {Kind::sample, "sample", "f"}},
  }};
  std::optional<double> dome;
  for (std::size_t i = 1; i < joined.size(); ++i) {
    const std::string low = folded(joined[i]);
    std::optional<std::string> wrong = fmt::format("'{}' is no reading", joined[i]);
    const std::string place = low.substr(0, 4);
    if (low.substr(0, 2) == "ph") {
      wrong = set_number(row, {Kind::ph, "pH", ""}, low.substr(2), dome);
    } else if (is_place(place)) {
      const std::string unit = low.substr(low.size() - 1);
      const Column column{place == "bulk" ? Kind::bulk : Kind::room, place, unit};
      if (unit == "c" || unit == "f")
        wrong = set_number(row, column, low.substr(4, low.size() - 5), dome);
    } else {
      for (const auto& [unit, column] : units) {
        const auto value = with_unit(low, unit);
        if (!value) continue;
        wrong = set_number(row, column, low.substr(0, low.size() - std::string(unit).size()), dome);
        break;
      }
    }
    if (wrong) return bad(*wrong);
  }
  return row;
}

Result<Readings> with_typed(Readings readings,
                            const std::vector<std::string>& typed,
                            const ReadingOptions& options) {
  for (const std::string& text : typed) {
    auto row = parse_reading(text, options);
    if (!row) return failure(row);
    if (!readings.logged.empty()) readings.logged.push_back(*row);
    readings.rows.push_back(std::move(*row));
  }
  for (std::vector<Reading>* const rows : {&readings.rows, &readings.logged}) {
    std::stable_sort(
        rows->begin(), rows->end(), [](const Reading& a, const Reading& b) { return a.at < b.at; });
  }
  find_mark(readings, options);
  return readings;
}

}  // namespace barm::estimation

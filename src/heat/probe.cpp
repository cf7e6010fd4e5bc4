#include "heat/probe.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>

#include "units/units.h"

namespace barm::heat {

namespace {

struct ProbeColumns {
  std::size_t time = 0, celsius = 0;
  double seconds = 60;  // of a unit of the time column
};

std::string at_line(const std::string& file, int line) { return fmt::format("{}:{}", file, line); }

std::vector<std::string> cells_of(std::string_view line) {
  const char mark = line.find(';') != std::string_view::npos ? ';' : ',';
  std::vector<std::string> cells(1);
  for (const char c : line) {
    if (c == mark) {
      cells.emplace_back();
    } else if (c == ',') {
      cells.back() += '.';  // a decimal comma, in a file that parts by semicolons
    } else if (c != '\r' && c != '"' && c != ' ') {
      cells.back() += c;
    }
  }
  return cells;
}

std::string lower(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

Result<ProbeColumns> columns_of(std::string_view line, const std::string& where) {
  ProbeColumns columns;
  bool time = false;
  bool warmth = false;
  const auto cells = cells_of(line);
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const std::string name = lower(cells[i]);
    if (name == "f" || name == "fahrenheit" || name.ends_with("_f") || name.ends_with("°f")) {
      return failure(ErrorCode::bad_input,
                     where,
                     "the temperatures are in °F: have the logger write °C, or convert them, in a "
                     "column named celsius");
    }
    if (name == "minutes" || name == "hours" || name == "seconds") {
      columns.time = i;
      columns.seconds = name == "minutes" ? 60 : name == "hours" ? 3600 : 1;
      time = true;
    }
    if (name == "celsius") {
      columns.celsius = i;
      warmth = true;
    }
  }
  if (time && warmth) return columns;
  return failure(ErrorCode::bad_input,
                 where,
                 "the first row names the columns: write \"minutes,celsius\" above the readings");
}

std::optional<double> number_in(const std::vector<std::string>& cells, std::size_t at) {
  if (at >= cells.size() || cells[at].empty()) return std::nullopt;
  double value = 0;
  const std::string& text = cells[at];
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

Result<ProbeReading> reading_of(std::string_view line,
                                const ProbeColumns& columns,
                                const std::string& where,
                                const ProbeLimits& limits) {
  const auto cells = cells_of(line);
  const auto time = number_in(cells, columns.time);
  const auto celsius = number_in(cells, columns.celsius);
  if (!time || !celsius) {
    return failure(
        ErrorCode::bad_input,
        where,
        "a time or a temperature is missing: take the row out, or write both as numbers");
  }
  if (!(*celsius >= limits.least && *celsius <= limits.most)) {
    return failure(ErrorCode::bad_input,
                   where,
                   fmt::format("{:g} °C cannot be of the {}: it lies between {:g} and {:g}; is the "
                               "file in °F?",
                               *celsius,
                               limits.of,
                               limits.least,
                               limits.most));
  }
  return ProbeReading{Time::from_si(*time * columns.seconds), Temperature::from_celsius(*celsius)};
}

// The usual time between two readings: the middle one of all.
double usual_step(const std::vector<ProbeReading>& readings) {
  std::vector<double> steps;
  for (std::size_t i = 1; i < readings.size(); ++i)
    steps.push_back((readings[i].at - readings[i - 1].at).si());
  std::nth_element(steps.begin(), steps.begin() + static_cast<long>(steps.size() / 2), steps.end());
  return steps[steps.size() / 2];
}

Result<bool> check_times(const std::vector<ProbeReading>& readings,
                         const std::vector<int>& lines,
                         const std::string& file) {
  for (std::size_t i = 1; i < readings.size(); ++i) {
    if (readings[i].at > readings[i - 1].at) continue;
    return failure(
        ErrorCode::bad_input, at_line(file, lines[i]), "times ascend, one row after the other");
  }
  const double longest = std::max(600.0, 3 * usual_step(readings));
  for (std::size_t i = 1; i < readings.size(); ++i) {
    const double step = (readings[i].at - readings[i - 1].at).si();
    if (step <= longest) continue;
    return failure(
        ErrorCode::bad_input,
        at_line(file, lines[i]),
        fmt::format("nothing was read from {:.0f} to {:.0f} min: leave the part before or "
                    "behind the gap out",
                    readings[i - 1].at.in(minute),
                    readings[i].at.in(minute)));
  }
  return true;
}

}  // namespace

Result<std::vector<ProbeReading>> parse_probe(std::string_view text,
                                              const std::string& file,
                                              const ProbeLimits& limits) {
  std::vector<ProbeReading> readings;
  std::vector<int> lines;
  std::optional<ProbeColumns> columns;
  int number = 0;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    ++number;
    if (line.empty() || line == "\r" || line.front() == '#') continue;
    const std::string where = at_line(file, number);
    if (!columns) {
      const auto found = columns_of(line, where);
      if (!found) return failure(found);
      columns = *found;
      continue;
    }
    const auto reading = reading_of(line, *columns, where, limits);
    if (!reading) return failure(reading);
    readings.push_back(*reading);
    lines.push_back(number);
  }
  if (readings.size() < 3)
    return failure(ErrorCode::bad_input, file, "a probe's file holds at least three readings");
  const auto fine = check_times(readings, lines, file);
  if (!fine) return failure(fine);
  return readings;
}

std::string gaps_in_words(const std::vector<ProbeReading>& readings) {
  if (readings.size() < 3) return "";
  constexpr double two_missing = 2.9;  // usual steps
  const double least = two_missing * usual_step(readings);
  std::string gaps;
  for (std::size_t i = 1; i < readings.size(); ++i) {
    if ((readings[i].at - readings[i - 1].at).si() < least) continue;
    gaps += fmt::format("{}from {:.0f} to {:.0f} min",
                        gaps.empty() ? "" : ", ",
                        readings[i - 1].at.in(minute),
                        readings[i].at.in(minute));
  }
  if (gaps.empty()) return "";
  return fmt::format(
      "The probe read nothing {}: what stands before and behind counts, nothing was put in "
      "between.",
      gaps);
}

}  // namespace barm::heat

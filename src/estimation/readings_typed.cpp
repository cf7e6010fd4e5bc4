// Readings as a baker types them: "14:30 52 mm", "5h bulk 24 C room 21 C pH 4.9".
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <sstream>

#include "estimation/internal/cells.h"
#include "estimation/internal/thin.h"

namespace barm::estimation {

namespace {

using internal::Column;
using internal::folded;
using internal::Kind;
using internal::number;

// As the daybook keeps it, so that the same reading says the same by whichever way it came.
Time to_the_second(double seconds) { return std::round(seconds) * second; }

bool is_place(const std::string& word) { return folded(word) == "bulk" || folded(word) == "room"; }

// "52 mm", "pH 4.9" and "bulk 24 C" become one word.
std::vector<std::string> joined(std::string_view text) {
  std::istringstream in{std::string(text)};
  const std::vector<std::string> words{std::istream_iterator<std::string>(in), {}};
  std::vector<std::string> out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    std::string word = words[i];
    const std::size_t left = words.size() - i - 1;
    if (is_place(word) && left > 0) {
      word += words[++i];
      if (number(words[i]) && left > 1) word += words[++i];
    } else if (left > 0 && (folded(word) == "ph" || number(word))) {
      word += words[++i];
    }
    out.push_back(std::move(word));
  }
  return out;
}

// The number of "52mm" before its unit; nothing when it ends otherwise.
std::optional<double> with_unit(const std::string& word, std::string_view unit) {
  const std::string low = folded(word);
  if (low.size() <= unit.size() || !low.ends_with(unit)) return std::nullopt;
  return number(low.substr(0, low.size() - unit.size()));
}

Result<Time> time_typed(const std::string& word, const time::WallClock& clock) {
  if (time::looks_like_clock(word)) return clock.since_mixing(word, Time{});
  if (const auto hours = with_unit(word, "h")) return to_the_second(*hours * 3600);
  if (const auto minutes = with_unit(word, "min")) return to_the_second(*minutes * 60);
  return failure(ErrorCode::bad_input, "", fmt::format("'{}' is no time", word));
}

// Sets what one word says; what is wrong with it, or nothing.
std::optional<std::string> set_typed(Reading& row, const std::string& word) {
  static const std::array<Column, 6> by_unit{{{Kind::height, "height", "mm"},
                                              {Kind::height, "height", "cm"},
                                              {Kind::ratio, "ratio", "x"},
                                              {Kind::growth, "rise", "%"},
                                              {Kind::sample, "sample", "c"},
                                              {Kind::sample, "sample", "f"}}};
  std::optional<double> no_dome;
  const std::string low = folded(word);
  const std::string place = low.substr(0, 4);
  if (low.starts_with("ph"))
    return internal::set_number(row, {Kind::ph, "pH", ""}, low.substr(2), no_dome);
  if (is_place(place)) {
    const std::string unit = low.substr(low.size() - 1);
    const Column column{place == "bulk" ? Kind::bulk : Kind::room, place, unit};
    if (unit == "c" || unit == "f")
      return internal::set_number(row, column, low.substr(4, low.size() - 5), no_dome);
  }
  for (const Column& column : by_unit) {
    if (!with_unit(low, column.unit)) continue;
    const std::string figure = low.substr(0, low.size() - column.unit.size());
    return internal::set_number(row, column, figure, no_dome);
  }
  return fmt::format("'{}' is no reading", word);
}

}  // namespace

Result<Reading> parse_reading(std::string_view text, const ReadingOptions& options) {
  const auto bad = [&](const std::string& words) {
    return failure(
        ErrorCode::bad_input,
        "--reading",
        fmt::format("'{}': {}; write '14:30 52 mm', '6.5h 1.4x' or '3h pH 4.9'", text, words));
  };
  const std::vector<std::string> words = joined(text);
  if (words.size() < 2) return bad("a time and something that was read");
  const auto at = time_typed(words.front(), options.clock);
  if (!at) return bad(at.error().message);
  if (const auto wrong = internal::wrong_time(*at, Time{})) return bad(*wrong);
  Reading row;
  row.at = *at;
  for (std::size_t i = 1; i < words.size(); ++i) {
    if (const auto wrong = set_typed(row, words[i])) return bad(*wrong);
  }
  return row;
}

Result<Readings> with_typed(Readings readings,
                            const std::vector<std::string>& typed,
                            const ReadingOptions& options) {
  const bool summed_up = !readings.logged.empty();
  for (const std::string& text : typed) {
    auto row = parse_reading(text, options);
    if (!row) return failure(row);
    if (summed_up) readings.logged.push_back(*row);
    readings.rows.push_back(std::move(*row));
  }
  for (std::vector<Reading>* const rows : {&readings.rows, &readings.logged}) {
    std::stable_sort(
        rows->begin(), rows->end(), [](const Reading& a, const Reading& b) { return a.at < b.at; });
  }
  internal::find_mark(readings, options);
  if (!summed_up) internal::thin(readings);
  return readings;
}

}  // namespace barm::estimation

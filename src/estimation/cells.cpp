#include "estimation/internal/cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <sstream>

namespace barm::estimation::internal {

namespace {

constexpr double ph_doubt_of_meter = 0.1;
constexpr double ph_doubt_of_strip = 0.3;
constexpr double longest = 24.0 * 14;  // h

double millimetres(double value, const std::string& unit) {
  if (unit == "cm") return 10 * value;
  return unit == "in" ? 25.4 * value : value;
}

double celsius(double value, const std::string& unit) {
  return unit == "f" ? (value - 32) / 1.8 : value;
}

}  // namespace

std::string folded(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const auto lower = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    out += lower == '_' ? ' ' : lower;
  }
  return out;
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

std::optional<std::string> outside(double value, Readable range, const char* what) {
  if (range.holds(value)) return std::nullopt;
  return fmt::format(
      "{:g} is no {}; between {:g} and {:g} it would be", value, what, range.low, range.high);
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
      wrong = outside(mm, readable_height_mm, a_height);
      row.height = mm * millimetre;
      break;
    }
    case Kind::dome:
      dome = millimetres(value, column.unit);
      wrong = outside(*dome, readable_height_mm, a_height);
      break;
    case Kind::ratio:
      wrong = outside(value, readable_ratio, a_ratio);
      row.ratio = value;
      break;
    case Kind::growth:
      wrong = outside(
          value, {100 * (readable_ratio.low - 1), 100 * (readable_ratio.high - 1)}, "rise in %");
      row.ratio = 1 + value / 100;
      break;
    case Kind::sample:
    case Kind::bulk:
    case Kind::room: {
      const double c = celsius(value, column.unit);
      wrong = outside(c, readable_warmth_C, a_warmth);
      const auto t = Temperature::from_celsius(c);
      (column.kind == Kind::sample ? row.sample
       : column.kind == Kind::bulk ? row.bulk
                                   : row.room) = t;
      break;
    }
    case Kind::ph:
    case Kind::ph_strip:
      wrong = outside(value, readable_ph, a_ph);
      row.ph = value;
      row.ph_doubt = column.kind == Kind::ph ? ph_doubt_of_meter : ph_doubt_of_strip;
      break;
    default:
      break;
  }
  return wrong;
}

std::string in_hours(Time at) { return fmt::format("{:.2f} h", at.in(hour)); }

std::optional<std::string> wrong_time(Time at, Time after) {
  if (at < Time{}) return fmt::format("{} is before mixing", in_hours(at));
  if (at.in(hour) > longest)
    return fmt::format("{} is more than 14 days after mixing", in_hours(at));
  if (at.in(second) < after.in(second)-0.5)
    return fmt::format(
        "time runs backwards: {} after {}; put the rows in order of time, and where the clock was "
        "changed in the night name the place, such as --zone Europe/Berlin",
        in_hours(at),
        in_hours(after));
  return std::nullopt;
}

}  // namespace barm::estimation::internal

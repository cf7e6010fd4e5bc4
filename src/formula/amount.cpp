#include "formula/amount.h"

#include <array>
#include <cctype>
#include <charconv>
#include <optional>
#include <utility>

#include "formula/words.h"
#include "generated/constants.h"
#include "units/units.h"

namespace barm::formula {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

tl::unexpected<Error> bad(std::string message) {
  return failure(ErrorCode::bad_input, "", std::move(message));
}

// --- numbers ---

/// How many characters at the front belong to a number.
std::size_t length_of_number(std::string_view text) {
  std::size_t i = 0;
  if (i < text.size() && text[i] == '-') ++i;
  while (i < text.size() && (is_digit(text[i]) || text[i] == '.' || text[i] == ',')) ++i;
  return i;
}

/// "1,200" with exactly three digits after a comma and no 0 before it reads as 1.2 or as 1200.
bool could_be_thousands(std::string_view number, std::size_t comma) {
  return number[comma] == ',' && number.size() - comma == 4 && comma > 0 && number[0] != '0';
}

Result<double> read_number(std::string number) {
  const std::size_t separator = number.find_first_of(".,");
  if (separator != std::string::npos) {
    if (number.find_first_of(".,", separator + 1) != std::string::npos) {
      return bad("\"" + number + "\" has two separators: write thousands without one");
    }
    if (could_be_thousands(number, separator)) {
      return bad("\"" + number +
                 "\" can be read two ways: write it without a comma or with a point");
    }
    number[separator] = '.';
  }
  double value = 0;
  const char* end = number.data() + number.size();
  const auto [stop, error] = std::from_chars(number.data(), end, value);
  if (error != std::errc() || stop != end) return bad("\"" + number + "\" is not a number");
  return value;
}

// --- units ---

struct UnitOfAmount {
  std::string_view word;
  WrittenAmount::Kind kind;
  double si;
};

using Kind = WrittenAmount::Kind;
constexpr double teaspoon = constants::spoon::teaspoon.value.si();
constexpr double tablespoon = constants::spoon::tablespoon.value.si();

constexpr UnitOfAmount units_of_amounts[] = {
    {"g", Kind::mass, 1e-3},
    {"gram", Kind::mass, 1e-3},
    {"grams", Kind::mass, 1e-3},
    {"mg", Kind::mass, 1e-6},
    {"kg", Kind::mass, 1},
    {"kilo", Kind::mass, 1},
    {"kilos", Kind::mass, 1},
    {"t", Kind::mass, 1000},
    {"oz", Kind::mass, ounce.si()},
    {"ounces", Kind::mass, ounce.si()},
    {"lb", Kind::mass, pound.si()},
    {"lbs", Kind::mass, pound.si()},
    {"pounds", Kind::mass, pound.si()},
    {"ml", Kind::volume, 1e-6},
    {"cl", Kind::volume, 1e-5},
    {"dl", Kind::volume, 1e-4},
    {"l", Kind::volume, 1e-3},
    {"litre", Kind::volume, 1e-3},
    {"litres", Kind::volume, 1e-3},
    {"liter", Kind::volume, 1e-3},
    {"liters", Kind::volume, 1e-3},
    {"tsp", Kind::volume, teaspoon},
    {"teaspoon", Kind::volume, teaspoon},
    {"teaspoons", Kind::volume, teaspoon},
    {"tbsp", Kind::volume, tablespoon},
    {"tablespoon", Kind::volume, tablespoon},
    {"tablespoons", Kind::volume, tablespoon},
    {"%", Kind::percent, 1e-2},
    {"percent", Kind::percent, 1e-2},
    {"", Kind::bare, 1},
};

constexpr std::string_view not_one_size[] = {
    "cup", "cups", "fl oz", "pint", "pints", "pt", "glass", "pinch"};

const UnitOfAmount* find_unit(std::string_view word) {
  for (const UnitOfAmount& unit : units_of_amounts) {
    if (unit.word == word) return &unit;
  }
  return nullptr;
}

Result<WrittenAmount> with_unit(double value, const std::string& words, bool of_liquid) {
  for (const std::string_view word : not_one_size) {
    if (words == word) return bad("\"" + words + "\" is not one size: weigh it, or write mL");
  }
  const UnitOfAmount* unit = find_unit(words);
  if (unit == nullptr) {
    return bad("\"" + words + "\" is no unit here: write g, kg, oz, lb, mL, cl, L, tsp, tbsp or %");
  }
  if (of_liquid && unit->kind != Kind::percent) {
    return bad("of the liquid only a share can be taken: write \"50 % of the liquid\"");
  }
  return WrittenAmount{unit->kind, value * unit->si, of_liquid, false, false};
}

// --- time ---

std::optional<double> seconds_in(std::string_view unit) {
  for (const auto* word : {"h", "hr", "hrs", "hour", "hours"}) {
    if (unit == word) return hour.si();
  }
  for (const auto* word : {"min", "mins", "minute", "minutes"}) {
    if (unit == word) return minute.si();
  }
  for (const auto* word : {"d", "day", "days"}) {
    if (unit == word) return day.si();
  }
  return std::nullopt;
}

/// Takes one "30 min" off the front of `rest`.
Result<double> take_time(std::string_view& rest) {
  const std::size_t digits = length_of_number(rest);
  std::size_t letters = digits;
  while (letters < rest.size() && !is_digit(rest[letters]) && rest[letters] != '-') ++letters;
  const auto number = parse_number(rest.substr(0, digits));
  if (!number) return failure(number);
  if (number->value < 0) return bad("a time is not negative");
  const auto unit = seconds_in(folded(rest.substr(digits, letters - digits)));
  if (!unit) return bad("a time has a unit: write \"5 h\", \"90 min\" or \"2 days\"");
  rest.remove_prefix(letters);
  return number->value * *unit;
}

/// Two digits behind the hours, "7h30" or "7:30".
std::optional<double> minutes_behind(std::string_view rest) {
  const std::string_view digits = trimmed(rest);
  if (digits.size() != 2 || !is_digit(digits[0]) || !is_digit(digits[1]) || digits[0] > '5')
    return std::nullopt;
  return (10 * (digits[0] - '0') + (digits[1] - '0')) * minute.si();
}

bool begins_with_hours(std::string_view rest) {
  const std::size_t digits = length_of_number(rest);
  return trimmed(rest.substr(digits)).starts_with('h');
}

/// "7:30", hours and minutes.
std::optional<double> hours_and_minutes(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == 0 || colon > 3 || text.size() != colon + 3) return std::nullopt;
  double hours = 0;
  for (const char digit : text.substr(0, colon)) {
    if (!is_digit(digit)) return std::nullopt;
    hours = 10 * hours + (digit - '0');
  }
  const auto minutes = minutes_behind(text.substr(colon + 1));
  return minutes ? std::optional(hours * hour.si() + *minutes) : std::nullopt;
}

}  // namespace

Result<NumberAndUnit> parse_number(std::string_view text) {
  const std::string_view all = trimmed(text);
  const std::size_t digits = length_of_number(all);
  if (digits == 0) return bad("there is no number in \"" + std::string(all) + "\"");
  const auto value = read_number(std::string(all.substr(0, digits)));
  if (!value) return failure(value);
  return NumberAndUnit{*value, std::string(trimmed(all.substr(digits)))};
}

Result<WrittenAmount> parse_amount(std::string_view text) {
  std::string words = folded(text);
  for (const std::string_view rest : {"rest of the liquid", "the rest of the liquid", "rest"}) {
    if (words == rest) return WrittenAmount{Kind::percent, 0, true, true, false};
  }
  for (const std::string_view ending : {"% vol", "%vol", "% abv", "%abv"}) {
    if (!words.ends_with(ending)) continue;
    const auto strength = parse_number(words);
    if (!strength) return failure(strength);
    if (strength->unit == ending)
      return WrittenAmount{Kind::percent, strength->value / 100, false, false, true};
  }
  bool of_liquid = false;
  for (const std::string_view ending : {"of the liquid", "of liquid"}) {
    if (of_liquid || !words.ends_with(ending)) continue;
    of_liquid = true;
    words.resize(words.size() - ending.size());
  }
  const auto number = parse_number(words);
  if (!number) return failure(number);
  return with_unit(number->value, number->unit, of_liquid);
}

Result<Temperature> parse_temperature(std::string_view text) {
  const auto number = parse_number(folded(text));
  if (!number) return failure(number);
  for (const std::string_view celsius : {"c", "°c", "° c", "celsius"}) {
    if (number->unit == celsius) return Temperature::from_celsius(number->value);
  }
  for (const std::string_view fahrenheit : {"f", "°f", "° f", "fahrenheit"}) {
    if (number->unit == fahrenheit) return Temperature::from_fahrenheit(number->value);
  }
  return bad("a temperature names its scale: write \"24 C\" or \"75 F\"");
}

Result<Time> parse_time(std::string_view text) {
  const std::string words = folded(text);
  std::string_view rest = words;
  if (const auto both = hours_and_minutes(trimmed(rest))) return *both * second;
  double seconds = 0;
  bool hours = false;
  do {
    const auto minutes = hours ? minutes_behind(rest) : std::nullopt;
    if (minutes) return (seconds + *minutes) * second;
    hours = begins_with_hours(rest);
    const auto part = take_time(rest);
    if (!part) return failure(part);
    seconds += *part;
  } while (!rest.empty());
  return seconds * second;
}

Result<Length> parse_length(std::string_view text) {
  const auto number = parse_number(folded(text));
  if (!number) return failure(number);
  constexpr std::pair<std::string_view, Length> units[] = {{"mm", millimetre},
                                                           {"cm", 10.0 * millimetre},
                                                           {"m", metre},
                                                           {"in", inch},
                                                           {"inch", inch},
                                                           {"inches", inch}};
  for (const auto& [name, unit] : units) {
    if (number->unit == name && number->value > 0) return number->value * unit;
  }
  return bad("a length is above zero and names its unit: write \"70 mm\", \"7 cm\" or \"2.5 in\"");
}

Result<double> parse_rise(std::string_view text) {
  const std::string words = folded(text);
  if (words == "doubled" || words == "double") return 2.0;
  if (words == "tripled" || words == "triple") return 3.0;
  if (words == "by half" || words == "half") return 1.5;
  const auto number = parse_number(words);
  const bool times = number && (number->unit.empty() || number->unit == "x" ||
                                number->unit == "×" || number->unit == "times");
  if (times) return number->value;
  return bad("a rise is \"doubled\", \"by half\", \"tripled\" or a ratio such as \"1.8 x\"");
}

}  // namespace barm::formula

#include "formula/reading.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "formula/internal/reading.h"
#include "formula/words.h"
#include "units/units.h"

namespace barm::formula {

void stop(const FilePlace& place, std::string message) {
  throw Stopped{error_at(place, ErrorCode::bad_input, std::move(message))};
}

std::string in_quotes(std::string_view word) {
  constexpr std::size_t longest = 60;
  if (word.size() <= longest) return "\"" + std::string(word) + "\"";
  std::size_t cut = longest;
  while (cut > 0 && (static_cast<unsigned char>(word[cut]) & 0xC0) == 0x80) --cut;
  return "\"" + std::string(word.substr(0, cut)) + "…\"";
}

void check_keys(const Node& table,
                std::string_view what,
                std::initializer_list<std::string_view> allowed) {
  for (const Entry& entry : table.entries) {
    if (std::find(allowed.begin(), allowed.end(), entry.key) != allowed.end()) continue;
    const std::vector<std::string> known(allowed.begin(), allowed.end());
    stop(entry.place,
         fmt::format(
             "{} is not known {}. {}", in_quotes(entry.key), what, near_or_all(entry.key, known)));
  }
}

void check_table(const Entry& entry, std::string_view example) {
  if (entry.value.kind == Node::Kind::table) return;
  stop(entry.place, fmt::format("{} is a table: write {}", in_quotes(entry.key), example));
}

const std::string& text_of(const Node& value, std::string_view example) {
  if (value.kind == Node::Kind::text) return value.text;
  stop(value.place, fmt::format("is not text in quotes: write \"{}\"", example));
}

WrittenAmount amount_of(const Node& value) {
  constexpr std::string_view bare = "has no unit: write \"500 g\" or \"50 %\"";
  if (value.kind == Node::Kind::whole || value.kind == Node::Kind::real) {
    stop(value.place, fmt::format("{:g} {}", value.number, bare));
  }
  const WrittenAmount amount = at_place(parse_amount(text_of(value, "500 g")), value.place);
  if (amount.kind == WrittenAmount::Kind::bare) {
    stop(value.place, fmt::format("{} {}", in_quotes(value.text), bare));
  }
  if (amount.value < 0) stop(value.place, "an amount is not negative");
  if (amount.by_volume)
    stop(value.place, "a strength stands in [bottle]: write \"500 g\" or \"50 %\"");
  return amount;
}

double share_of(const Node& value, std::string_view example, double least, double most) {
  const WrittenAmount amount = amount_of(value);
  if (amount.kind != WrittenAmount::Kind::percent || amount.of_liquid) {
    stop(value.place, fmt::format("is not a share: write \"{}\"", example));
  }
  if (amount.value < least || amount.value > most) {
    stop(value.place, fmt::format("lies between {:g} % and {:g} %", 100 * least, 100 * most));
  }
  return amount.value;
}

Mass mass_of(const Node& value, std::string_view example) {
  const WrittenAmount amount = amount_of(value);
  if (amount.kind == WrittenAmount::Kind::mass && amount.value > 0) return amount.value * kilogram;
  stop(value.place, fmt::format("is not a weight: write \"{}\"", example));
}

Time time_of(const Node& value) {
  const Time time = at_place(parse_time(text_of(value, "5 h")), value.place);
  if (time > 60.0 * day) stop(value.place, "is longer than 60 days");
  return time;
}

std::string not_in_the_bowl(std::string_view word, const Bake& bake) {
  std::vector<std::string> names;
  for (const Portion& portion : bake.bowl) {
    names.push_back(portion.levain ? "levain" : portion.ingredient.name);
  }
  return fmt::format("{} is not in the bowl. {}", in_quotes(word), near_or_all(word, names));
}

namespace internal {

Temperature dough_temperature(const Node& value) {
  const auto temperature = at_place(parse_temperature(text_of(value, "24 C")), value.place);
  if (temperature < Temperature::from_celsius(-5) || temperature > Temperature::from_celsius(60)) {
    stop(
        value.place,
        fmt::format("{:.0f} °C is no temperature for a dough: -5 to 60 °C", temperature.celsius()));
  }
  return temperature;
}

double rise_of(const Node& value) {
  const bool number = value.kind == Node::Kind::whole || value.kind == Node::Kind::real;
  const double rise =
      number ? value.number : at_place(parse_rise(text_of(value, "doubled")), value.place);
  if (rise > 1 && rise <= 8) return rise;
  stop(value.place, "a rise is a ratio above 1 and at most 8: write \"doubled\" or \"1.8 x\"");
}

}  // namespace internal

}  // namespace barm::formula

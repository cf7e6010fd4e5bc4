#include "larder/larder.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "base/require.h"
#include "generated/larder_data.h"
#include "larder/composition.h"
#include "larder/internal/convert.h"

namespace barm::larder {

namespace {

Known converted(const compiled::Value& value, Density density) {
  const auto si = [&](double x) { return internal::in_si(value.property, value.unit, x, density); };
  return Known{si(value.typical), si(value.low), si(value.high), value.source, value.at};
}

/// A table's carbohydrate by difference still holds what is stated one by one.
void take_out_what_is_stated(Ingredient& ingredient) {
  using enum Property;
  auto& rest = ingredient[other_carbohydrate];
  double left = rest->typical;
  for (const Property part : {glucose,
                              fructose,
                              sucrose,
                              maltose,
                              lactose,
                              glycerol,
                              lactic_acid,
                              acetic_acid,
                              tartaric_acid,
                              malic_acid,
                              citric_acid,
                              succinic_acid,
                              gluconic_acid}) {
    if (ingredient[part]) left -= ingredient[part]->typical;
  }
  rest->typical = rest->low = rest->high = std::max(0.0, left);
}

std::vector<std::string> strings(std::span<const std::string_view> words) {
  return {words.begin(), words.end()};
}

Ingredient read(const compiled::Row& row, Density density) {
  Ingredient ingredient;
  ingredient.key = row.key;
  ingredient.name = row.name;
  ingredient.also = strings(row.also);
  ingredient.group = row.group;
  ingredient.allergens = strings(row.allergens);
  ingredient.note = row.note;
  ingredient.from = row.from;
  for (const compiled::Value& value : row.values)
    ingredient[value.property] = converted(value, density);
  if (row.by_difference) take_out_what_is_stated(ingredient);
  return ingredient;
}

/// Parts per volume need the density, and the density needs the parts: repeated until they agree.
Ingredient loaded(const compiled::Row& row) {
  Density density = Density::from_si(1000);
  for (int step = 0; step < 100; ++step) {
    Ingredient ingredient = read(row, density);
    const auto composition = typical(ingredient);
    require(composition.has_value(), row.key);
    const double change = std::abs(composition->density().si() - density.si());
    if (change <= 1e-9 * density.si()) return ingredient;
    density = composition->density();
  }
  require(false, "the density of an ingredient settles");
  return {};
}

std::vector<Ingredient> load() {
  std::vector<Ingredient> larder;
  larder.reserve(std::size(compiled::rows));
  for (const compiled::Row& row : compiled::rows) larder.push_back(loaded(row));
  return larder;
}

std::string shortest(double value) {
  std::array<char, 32> text{};
  const auto end =
      std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::general, 6)
          .ptr;
  return {text.data(), end};
}

std::string words_of(Property property) {
  std::string words(name(property));
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

/// "9.5 to 14.5; honey wine", or either alone.
std::string noted(const compiled::Value& value) {
  std::string note =
      value.low < value.high ? shortest(value.low) + " to " + shortest(value.high) : "";
  if (!note.empty() && !value.note.empty()) note += "; ";
  return note.append(value.note);
}

/// sd of ln(value) when low and high enclose nine of ten.
double doubt(const compiled::Value& value) {
  constexpr double nine_of_ten_widths = 2 * 1.6448536269514722;
  return value.low > 0 ? std::log(value.high / value.low) / nine_of_ten_widths : 0;
}

/// A line of `barm source` with the two texts that it is a view of.
struct Line {
  std::string name;
  std::string note;
  const compiled::Value* value;
  std::string_view file;
};

std::vector<Line> lines() {
  std::vector<Line> all;
  for (const compiled::Row& row : compiled::rows) {
    for (const compiled::Value& value : row.values) {
      all.push_back({std::string(row.name) + ": " + words_of(value.property),
                     noted(value),
                     &value,
                     row.file});
    }
  }
  for (const auto& [group, value] : compiled::assumptions) {
    all.push_back({std::string(name(group)) + ", when unknown: " + words_of(value.property),
                   noted(value),
                   &value,
                   "larder/unknown.toml"});
  }
  return all;
}

}  // namespace

std::span<const Ingredient> all() {
  static const std::vector<Ingredient> larder = load();
  return larder;
}

std::optional<Known> assumed(const Ingredient& ingredient, Property property) {
  for (const auto& [group, value] : compiled::assumptions) {
    if (group == ingredient.group && value.property == property) {
      return converted(value, Density::from_si(1000));
    }
  }
  return std::nullopt;
}

std::vector<data::Entry> entries() {
  static const std::vector<Line> texts = lines();
  std::vector<data::Entry> list;
  for (const auto& [name, note, value, file] : texts) {
    list.push_back(
        {name, value->typical, value->unit, doubt(*value), value->source, value->at, note, file});
  }
  return list;
}

}  // namespace barm::larder

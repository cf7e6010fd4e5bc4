#include <fmt/format.h>

#include "cli/print.h"
#include "data/catalogue.h"
#include "larder/larder.h"

namespace barm::cli {

namespace {

using larder::Property;

std::string number(double value) { return fmt::format("{:.3g}", value); }

// Property values as a baker reads them: shares of mass in g/kg or mg/kg, the rest as they are.
std::string shown(Property property, double value) {
  switch (property) {
    case Property::ph:
      return fmt::format("{:.2f}", value);
    case Property::strength:
      return fmt::format("{:.1f} % vol", 100 * value);
    case Property::density:
      return fmt::format("{:.3f} g/mL", value / 1000);
    case Property::buffering:
      return fmt::format("{} mmol/(kg pH)", number(1000 * value));
    case Property::lactic_bacteria:
    case Property::wild_yeast:
      return fmt::format("{:.1f} log CFU/g", value);
    case Property::total_sulphite:
    case Property::free_sulphite:
    case Property::sorbate:
    case Property::iso_alpha_acids:
    case Property::caffeine:
    case Property::calcium:
    case Property::potassium:
      return fmt::format("{} mg/kg", number(1e6 * value));
    case Property::lag:
    case Property::gluten_strength:
    case Property::hydration:
    case Property::protease:
    case Property::rise_limit:
    case Property::pentosan_share:
      return number(value);
    default:
      return fmt::format("{} g/kg", number(1000 * value));
  }
}

std::string spoken(std::string_view name) {
  std::string out(name);
  for (char& c : out) {
    if (c == '_') c = ' ';
  }
  return out;
}

void print_one(Paper& paper, const larder::Ingredient& ingredient) {
  paper.heading(ingredient.name, std::string(larder::name(ingredient.group)));
  if (!ingredient.note.empty()) paper.wrapped(ingredient.note, 0);
  for (std::size_t i = 0; i < larder::property_count; ++i) {
    const auto property = static_cast<Property>(i);
    const auto& known = ingredient[property];
    if (known) {
      std::string value = shown(property, known->typical);
      if (known->low != known->high)
        value +=
            fmt::format("  ({} to {})", shown(property, known->low), shown(property, known->high));
      paper.item("   " + spoken(larder::name(property)),
                 fmt::format("{}; {}{}",
                             value,
                             data::name(known->source->standing),
                             known->source->standing == data::Standing::published
                                 ? " " + std::string(known->source->key)
                                 : ""),
                 24);
    } else if (larder::assumed(ingredient, property)) {
      const auto range = larder::assumed(ingredient, property);
      paper.item("   " + spoken(larder::name(property)),
                 fmt::format("unknown; taken as {} to {}",
                             shown(property, range->low),
                             shown(property, range->high)),
                 24);
    }
  }
  if (!ingredient.allergens.empty()) {
    std::string all;
    for (const std::string& allergen : ingredient.allergens)
      all += (all.empty() ? "" : ", ") + allergen;
    paper.item("   allergens", all, 24);
  }
}

}  // namespace

void print(Paper& paper, const std::vector<larder::Ingredient>& ingredients) {
  if (ingredients.size() == 1) return print_one(paper, ingredients.front());
  paper.heading("LARDER", fmt::format("{} ingredients", ingredients.size()));
  for (const larder::Ingredient& ingredient : ingredients) {
    std::string also;
    for (const std::string& name : ingredient.also) also += (also.empty() ? "" : ", ") + name;
    const auto& strength = ingredient[Property::strength];
    paper.line(padded("   " + ingredient.name, 33) + padded(larder::name(ingredient.group), 9) +
               padded(strength ? shown(Property::strength, strength->typical) : "", 12) +
               (columns(also) > 26 ? "" : also));
  }
}

void print(Paper& paper, const service::RestingAnswer& answer) {
  paper.heading(answer.bake.name, "what its time depends on, the weightiest first");
  if (answer.numbers.empty())
    paper.wrapped("no number by itself: what is in the bottles decides", 3);
  for (const auto& [entry, share] : answer.numbers) {
    paper.line(padded(fmt::format("   {:.0f} %", 100 * share), 9) + std::string(entry.name));
    print(paper, std::vector<data::Entry>{entry});
  }
}

void print(Paper& paper, const std::vector<data::Entry>& entries) {
  for (const data::Entry& entry : entries) {
    const bool plain = entry.unit == "one" || entry.unit == "ph" || entry.unit.empty();
    paper.heading(std::string(entry.name),
                  fmt::format("{} {}", number(entry.value), plain ? "" : entry.unit));
    std::string from = std::string(data::name(entry.source->standing));
    from += entry.source->standing == data::Standing::published
                ? ": " + std::string(entry.source->title)
                : "";
    if (!entry.at.empty()) from += fmt::format(" ({})", entry.at);
    if (!entry.note.empty()) from += fmt::format("; {}", entry.note);
    if (entry.doubt > 0) from += fmt::format("; doubt about {:.0f} %", 100 * entry.doubt);
    paper.wrapped(from, 3);
  }
}

}  // namespace barm::cli

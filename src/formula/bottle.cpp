#include "formula/bottle.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "chemistry/acids.h"
#include "formula/internal/contents.h"
#include "formula/internal/reading.h"
#include "formula/words.h"
#include "generated/constants.h"
#include "generated/tables.h"
#include "larder/composition.h"
#include "units/units.h"

namespace barm::formula {

using larder::Ingredient;
using larder::Known;
using larder::Property;

namespace {

constexpr std::string_view said = "as the bake file says";

Known exact(double value) { return {value, value, value, nullptr, said}; }

// --- units ---

enum class Per { kilogram, volume, itself };

struct UnitOfLabel {
  std::string_view word;
  Per per;
  double si;  ///< kg/kg, kg/m3, or of the property itself
};

constexpr UnitOfLabel parts[] = {
    {"g/l", Per::volume, 1},
    {"mg/l", Per::volume, 1e-3},
    {"ug/l", Per::volume, 1e-6},
    {"g/100 ml", Per::volume, 10},
    {"g/100ml", Per::volume, 10},
    {"g/kg", Per::kilogram, 1e-3},
    {"mg/kg", Per::kilogram, 1e-6},
    {"g/100 g", Per::kilogram, 1e-2},
    {"g/100g", Per::kilogram, 1e-2},
    {"%", Per::kilogram, 1e-2},
};

constexpr UnitOfLabel strengths[] = {
    {"% vol", Per::itself, 1e-2},
    {"%vol", Per::itself, 1e-2},
    {"vol %", Per::itself, 1e-2},
    {"% abv", Per::itself, 1e-2},
    {"%abv", Per::itself, 1e-2},
};

constexpr UnitOfLabel densities[] = {
    {"g/ml", Per::itself, 1000},
    {"kg/l", Per::itself, 1000},
    {"g/l", Per::itself, 1},
    {"kg/m3", Per::itself, 1},
};

constexpr UnitOfLabel bitterness[] = {
    {"ibu", Per::volume, constants::label::iso_alpha_per_ibu.value.si()},
    {"", Per::volume, constants::label::iso_alpha_per_ibu.value.si()},
};

constexpr UnitOfLabel acidities[] = {
    {"", Per::itself, 1},
    {"ph", Per::itself, 1},
};

constexpr UnitOfLabel bufferings[] = {
    {"mmol/(kg ph)", Per::kilogram, 1e-3},
    {"mmol/(l ph)", Per::volume, 1},
};

constexpr UnitOfLabel plain_numbers[] = {
    {"", Per::itself, 1},
    {"log10 cfu/g", Per::itself, 1},
    {"%", Per::itself, 1e-2},
};

/// What can be said of a property: its units, an example and the largest value that makes sense.
struct Wording {
  std::span<const UnitOfLabel> units;
  std::string_view example;
  double least, most;
};

Wording wording(Property property) {
  switch (property) {
    case Property::strength:
      return {strengths, "11.5 % vol", 0, 1};
    case Property::density:
      return {densities, "0.99 g/mL", 300, 2000};
    case Property::ph:
      return {acidities, "3.4", 0, 14};
    case Property::buffering:
      return {bufferings, "20 mmol/(kg pH)", 0, 10};
    case Property::lactic_bacteria:
    case Property::wild_yeast:
      return {plain_numbers, "7.4", 0, 12};
    case Property::lag:
    case Property::hydration:
    case Property::rise_limit:
      return {plain_numbers, "0.5", 0, 20};
    case Property::gluten_strength:
    case Property::protease:
    case Property::pentosan_share:
      return {plain_numbers, "0.5", 0, 1};
    default:
      return {parts, "8 g/L", 0, 1};
  }
}

constexpr Wording bitterness_wording{bitterness, "35 IBU", 0, 0.01};

const UnitOfLabel* find_unit(const Wording& wording, std::string_view word) {
  for (const UnitOfLabel& unit : wording.units) {
    if (unit.word == word) return &unit;
  }
  return nullptr;
}

/// A number of the file, as text with its unit or bare.
NumberAndUnit number_of(const Node& value, std::string_view example) {
  const bool bare = value.kind == Node::Kind::whole || value.kind == Node::Kind::real;
  if (bare) return {value.number, ""};
  auto number = at_place(parse_number(folded(text_of(value, example))), value.place);
  return number;
}

/// A statement in SI; what is per litre is divided by the density [kg/m3].
double stated(const Node& value,
              const NumberAndUnit& number,
              const Wording& wording,
              double density) {
  const UnitOfLabel* unit = find_unit(wording, number.unit);
  if (unit == nullptr) {
    stop(value.place,
         fmt::format("{} is no unit here: write \"{}\"", in_quotes(number.unit), wording.example));
  }
  const double si = number.value * unit->si / (unit->per == Per::volume ? density : 1);
  if (si >= wording.least && si <= wording.most) return si;
  const std::string written = fmt::format("{:g} {}", number.value, number.unit);
  stop(value.place,
       fmt::format("{} cannot be: write something like \"{}\"", trimmed(written), wording.example));
}

double stated(const Node& value, const Wording& wording, double density) {
  return stated(value, number_of(value, wording.example), wording, density);
}

// --- what a label says in one word for several properties ---

constexpr std::array sugars = {
    Property::glucose, Property::fructose, Property::sucrose, Property::maltose, Property::lactose};

double sum_of(const Ingredient& ingredient, std::span<const Property> properties) {
  double sum = 0;
  for (const Property property : properties) {
    const auto& known = ingredient[property];
    if (known) sum += known->typical;
  }
  return sum;
}

/// Divides the sugar as the larder does for such a drink; half glucose, half fructose where it does
/// not know.
void set_sugar(Ingredient& ingredient, double sugar) {
  const double before = sum_of(ingredient, sugars);
  if (before <= 0) {
    ingredient[Property::glucose] = ingredient[Property::fructose] = exact(sugar / 2);
    return;
  }
  for (const Property property : sugars) {
    auto& known = ingredient[property];
    if (known) known = exact(known->typical * sugar / before);
  }
}

using chemistry::Acid;
constexpr std::size_t fixed_acids = chemistry::acid_count - 1;

double mass_of_acid(const Ingredient& ingredient, Acid acid) {
  const auto& known = ingredient[internal::property_of(acid)];
  return known ? known->typical : 0;
}

/// The acid there is most of; tartaric where none is known.
Acid main_acid(const Ingredient& ingredient) {
  Acid main = Acid::tartaric;
  for (std::size_t k = 0; k < fixed_acids; ++k) {
    const auto acid = static_cast<Acid>(k);
    if (mass_of_acid(ingredient, acid) > mass_of_acid(ingredient, main)) main = acid;
  }
  return main;
}

constexpr std::array<std::string_view, fixed_acids> acid_names = {
    "lactic", "acetic", "tartaric", "malic", "citric", "succinic", "gluconic"};

std::string_view name(Acid acid) { return acid_names.at(static_cast<std::size_t>(acid)); }

/// Charge that an acid still gives off on the way from the drink's pH to the end of a titration.
double titrated(Acid acid, Ph ph) {
  const Ph end = constants::label::acid_end_point.value;
  return chemistry::dissociated(acid, end, Molality{}) -
         chemistry::dissociated(acid, ph, Molality{});
}

/// Titratable acidity [mol/kg].
double titratable(const Ingredient& ingredient, Ph ph) {
  double sum = 0;
  for (std::size_t k = 0; k < fixed_acids; ++k) {
    const auto acid = static_cast<Acid>(k);
    sum += mass_of_acid(ingredient, acid) / chemistry::molar_mass(acid).si() * titrated(acid, ph);
  }
  return sum;
}

/// Scales the larder's acids so that titration gives what the label says "as" one acid:
/// equivalents = mass of that acid / molar mass times its steps.
void set_acid(Ingredient& ingredient, Acid as, double mass, const FilePlace& place) {
  const auto steps = static_cast<double>(chemistry::pka_at_zero(as).size());
  const double wanted = mass / chemistry::molar_mass(as).si() * steps;
  const auto& known = ingredient[Property::ph];
  const Ph ph(known ? known->typical : 3.4);
  if (ph.value() > 6) stop(place, "give the drink's pH too: at its pH nothing is left to titrate");
  const double before = titratable(ingredient, ph);
  if (before <= 0) {
    const double moles = wanted / titrated(as, ph);
    ingredient[internal::property_of(as)] = exact(moles * chemistry::molar_mass(as).si());
    return;
  }
  for (std::size_t k = 0; k < fixed_acids; ++k) {
    auto& acid = ingredient[internal::property_of(static_cast<Acid>(k))];
    if (acid) acid = exact(acid->typical * wanted / before);
  }
}

/// "6 g/L", or "6 g/L as malic" for another acid than the drink's main one.
void lay_acid(const Node& value, double density, Labelled& out) {
  NumberAndUnit number = number_of(value, "6 g/L");
  Acid as = main_acid(out.ingredient);
  const std::size_t named = number.unit.find(" as ");
  if (named != std::string::npos) {
    const std::string word = number.unit.substr(named + 4);
    const auto* found = std::find(acid_names.begin(), acid_names.end(), word);
    if (found == acid_names.end()) {
      stop(value.place,
           fmt::format("{} is no acid here: write \"6 g/L as tartaric\"", in_quotes(word)));
    }
    as = static_cast<Acid>(found - acid_names.begin());
    number.unit.resize(named);
  } else {
    out.reading = fmt::format("acid read as {} acid, titrated", name(as));
  }
  set_acid(out.ingredient, as, stated(value, number, {parts, "6 g/L", 0, 1}, density), value.place);
}

// --- price ---

/// "EUR" of "9.60 EUR"; a sign or three letters.
std::string currency_of(std::string_view word, const FilePlace& place) {
  const std::string_view currency = trimmed(word);
  if (currency == "€") return "EUR";
  if (currency == "£") return "GBP";
  const bool letters =
      currency.size() == 3 &&
      std::all_of(currency.begin(), currency.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
  if (!letters) stop(place, "a price names its currency: write \"9.60 EUR / 750 mL\"");
  return std::string(currency);
}

/// The kilograms that a price is for.
double kilograms_of(std::string_view text, const Ingredient& ingredient, const FilePlace& place) {
  const bool has_number = !text.empty() && (text[0] == '.' || (text[0] >= '0' && text[0] <= '9'));
  const std::string amount = (has_number ? "" : "1 ") + std::string(text);
  const WrittenAmount per = at_place(parse_amount(amount), place);
  double kilograms = 0;
  if (per.kind == WrittenAmount::Kind::mass) kilograms = per.value;
  if (per.kind == WrittenAmount::Kind::volume)
    kilograms = per.value * density_of(ingredient, place);
  if (kilograms > 0) return kilograms;
  stop(place, "a price is per weight or volume: write \"9.60 EUR / 750 mL\"");
}

void lay_price(const Node& value, Labelled& out) {
  const std::string& text = text_of(value, "9.60 EUR / 750 mL");
  const std::size_t slash = text.find('/');
  if (slash == std::string::npos) {
    stop(value.place, "a price is per weight or volume: write \"9.60 EUR / 750 mL\"");
  }
  const auto sum = at_place(parse_number(text.substr(0, slash)), value.place);
  if (sum.value < 0) stop(value.place, "a price is not negative");
  const std::string_view per = trimmed(std::string_view(text).substr(slash + 1));
  out.currency = currency_of(sum.unit, value.place);
  out.price = sum.value / kilograms_of(per, out.ingredient, value.place);
}

// --- scents ---

std::vector<std::string> scent_names() {
  std::vector<std::string> names;
  for (const auto& row : tables::scents)
    names.emplace_back(row.name.substr(0, row.name.find(" (")));
  return names;
}

/// "isoamyl acetate 2 mg/L": the amount is the last two words.
larder::StatedScent scent_of(const Node& value, double density) {
  constexpr std::string_view example = "isoamyl acetate 2 mg/L";
  const std::string text = folded(text_of(value, example));
  const std::size_t unit = text.rfind(' ');
  const std::size_t amount =
      unit == std::string::npos || unit == 0 ? unit : text.rfind(' ', unit - 1);
  if (amount == std::string::npos)
    stop(value.place, fmt::format("names a scent and its amount: write \"{}\"", example));
  const auto names = scent_names();
  const std::string name = text.substr(0, amount);
  const auto found = std::find_if(
      names.begin(), names.end(), [&](const std::string& one) { return folded(one) == name; });
  if (found == names.end()) {
    stop(
        value.place,
        fmt::format(
            "{} is no scent that is known. {}", in_quotes(name), near_it(near_words(name, names))));
  }
  const auto number = at_place(parse_number(text.substr(amount + 1)), value.place);
  return {*found, stated(value, number, {parts, "2 mg/L", 0, 1}, density)};
}

void lay_scents(const Node& value, double density, Ingredient& ingredient) {
  if (value.kind != Node::Kind::list)
    stop(value.place, "is a list: write [\"isoamyl acetate 2 mg/L\"]");
  for (const Node& item : value.items) {
    larder::StatedScent scent = scent_of(item, density);
    std::erase_if(ingredient.scents, [&](const auto& one) { return one.name == scent.name; });
    ingredient.scents.push_back(std::move(scent));
  }
}

void lay_smell(const Node& value, Ingredient& ingredient) {
  const std::string wanted = folded(text_of(value, "aromatic white wine"));
  std::vector<std::string> drinks;
  for (const auto& row : tables::drinks_scents) {
    if (drinks.empty() || drinks.back() != row.drink) drinks.emplace_back(row.drink);
  }
  if (std::find(drinks.begin(), drinks.end(), wanted) == drinks.end()) {
    stop(value.place,
         fmt::format("{} is no drink whose scents are known. {}",
                     in_quotes(wanted),
                     near_or_all(wanted, drinks)));
  }
  ingredient.smells_like = wanted;
}

// --- the whole label ---

bool is_special(std::string_view key) {
  return key == "sugar" || key == "acid" || key == "bitterness" || key == "price" ||
         key == "scents" || key == "smells_like";
}

void check_label(const Node& table) {
  for (const Entry& entry : table.entries) {
    if (is_special(entry.key) || larder::property_named(entry.key)) continue;
    std::vector<std::string> known = {
        "sugar", "acid", "bitterness", "price", "scents", "smells_like"};
    for (std::size_t i = 0; i < larder::property_count; ++i) {
      known.emplace_back(larder::name(static_cast<Property>(i)));
    }
    stop(entry.place,
         fmt::format("{} is not known of a bottle. {}",
                     in_quotes(entry.key),
                     near_it(near_words(entry.key, known))));
  }
}

/// Free sulphite is part of the total: a label that states one bounds the other.
void agree_on_sulphite(const Node& table, Ingredient& ingredient) {
  auto& free = ingredient[Property::free_sulphite];
  auto& total = ingredient[Property::total_sulphite];
  if (!free || !total) return;
  if (find(table, "total_sulphite") != nullptr && find(table, "free_sulphite") == nullptr) {
    const double most = total->typical;
    *free = {std::min(free->typical, most),
             std::min(free->low, most),
             std::min(free->high, most),
             free->source,
             free->at};
  }
  if (find(table, "free_sulphite") != nullptr && find(table, "total_sulphite") == nullptr) {
    const double least = free->typical;
    *total = {std::max(total->typical, least),
              std::max(total->low, least),
              std::max(total->high, least),
              total->source,
              total->at};
  }
}

/// Another strength or sugar than the larder's is another density, unless the bottle states it.
void forget_what_follows(const Node& table, Ingredient& ingredient) {
  const bool changed = find(table, "strength") != nullptr || find(table, "sugar") != nullptr;
  if (changed && ingredient.group == larder::Group::drink) ingredient[Property::density].reset();
  if (find(table, "strength") != nullptr) ingredient[Property::ethanol].reset();
  if (find(table, "ethanol") != nullptr) ingredient[Property::strength].reset();
}

void lay_property(const Entry& entry, Property property, double density, Ingredient& ingredient) {
  ingredient[property] = exact(stated(entry.value, wording(property), density));
}

Labelled laid(const Ingredient& ingredient, const Node& table, double density) {
  Labelled out{ingredient, std::nullopt, "", "", {}};
  forget_what_follows(table, out.ingredient);
  for (const Entry& entry : table.entries) {
    const auto property = larder::property_named(entry.key);
    if (property) lay_property(entry, *property, density, out.ingredient);
  }
  for (const Entry& entry : table.entries) {
    if (entry.key == "sugar")
      set_sugar(out.ingredient, stated(entry.value, {parts, "8 g/L", 0, 1}, density));
    if (entry.key == "acid") lay_acid(entry.value, density, out);
    if (entry.key == "scents") lay_scents(entry.value, density, out.ingredient);
    if (entry.key == "smells_like") lay_smell(entry.value, out.ingredient);
    if (entry.key == "bitterness") {
      out.ingredient[Property::iso_alpha_acids] =
          exact(stated(entry.value, bitterness_wording, density));
    }
  }
  agree_on_sulphite(table, out.ingredient);
  return out;
}

}  // namespace

double density_of(const Ingredient& ingredient, const FilePlace& place) {
  const auto composition = larder::typical(ingredient);
  const bool dry_and_unknown = !ingredient.is_liquid() && !ingredient[Property::density];
  if (composition && composition->density().si() > 0 && !dry_and_unknown) {
    return composition->density().si();
  }
  stop(place, fmt::format("weigh it: the density of {} is not known", in_quotes(ingredient.name)));
}

Labelled labelled(const Ingredient& ingredient, const Node& table) {
  check_label(table);
  double density = 1000;
  Labelled out = laid(ingredient, table, density);
  for (int step = 0; step < 100; ++step) {
    const auto composition = at_place(larder::typical(out.ingredient), table.place);
    const double change = composition.density().si() - density;
    density = composition.density().si();
    out = laid(ingredient, table, density);
    if (std::abs(change) <= 1e-9 * density) break;
  }
  if (const Node* price = find(table, "price")) lay_price(*price, out);
  return out;
}

}  // namespace barm::formula

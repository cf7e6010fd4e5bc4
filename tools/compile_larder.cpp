// Turns data/larder/ into a header: every ingredient's composition, each value with unit and
// source.
//
//   compile_larder OUT sources.toml larder.toml ingredients_usda.csv ingredients_ciqual.csv
//   allergens.csv unknown.toml FILE…
//
// It stops, with file, line and key, at anything that a reader of the data could not trust.
#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <optional>
#include <set>

#include "data_reader.h"

namespace barm::tools {

namespace {

using Words = std::vector<std::string>;

const Words groups = {"flour",
                      "starter",
                      "yeast",
                      "water",
                      "drink",
                      "dairy",
                      "egg",
                      "salt",
                      "sugar",
                      "fat",
                      "seed",
                      "fruit",
                      "acid",
                      "malt",
                      "other"};
const Words sugars = {"glucose", "fructose", "sucrose", "maltose", "lactose"};

/// The units in which a property may be stated.
const Words& units_of(const std::string& property) {
  static const Words part = {"g/100g", "g/kg", "g/L"};
  static const Words acid = {"g/100g", "g/kg", "g/L", "mmol/L", "mmol/kg"};
  static const Words trace = {"g/kg", "g/L", "mg/kg", "mg/L"};
  static const Words gas = {"g/kg", "g/L"};
  static const Words yeast = {"g/100g", "mg/kg"};
  static const Words count = {"log10 CFU/g"};
  static const Words one = {"one"};
  static const std::map<std::string, Words> table = [] {
    std::map<std::string, Words> units;
    for (const char* name : {"water",
                             "ethanol",
                             "starch",
                             "glucose",
                             "fructose",
                             "sucrose",
                             "maltose",
                             "lactose",
                             "other_carbohydrate",
                             "protein",
                             "fat",
                             "fibre",
                             "ash",
                             "salt",
                             "glycerol"}) {
      units[name] = part;
    }
    for (const char* name : {"lactic_acid",
                             "acetic_acid",
                             "tartaric_acid",
                             "malic_acid",
                             "citric_acid",
                             "succinic_acid",
                             "gluconic_acid"}) {
      units[name] = acid;
    }
    for (const char* name : {"total_sulphite",
                             "free_sulphite",
                             "sorbate",
                             "iso_alpha_acids",
                             "caffeine",
                             "calcium",
                             "potassium"}) {
      units[name] = trace;
    }
    for (const char* name :
         {"lag", "gluten_strength", "hydration", "protease", "rise_limit", "pentosan_share"}) {
      units[name] = one;
    }
    units["carbon_dioxide"] = gas;
    units["ph"] = {"ph"};
    units["buffering"] = {"mmol/(kg ph)", "mmol/(L ph)"};
    units["strength"] = {"%vol"};
    units["density"] = {"g/mL"};
    units["lactic_bacteria"] = count;
    units["wild_yeast"] = count;
    units["bakers_yeast"] = yeast;
    return units;
  }();
  static const Words none;
  const auto found = table.find(property);
  return found == table.end() ? none : found->second;
}

bool holds(const Words& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

struct Value {
  double typical = 0, low = 0, high = 0;
  std::string unit, source, at, note;
};

using Values = std::map<std::string, Value>;

/// What all ingredients are checked against.
struct Reference {
  std::set<std::string> sources;
  double salt_per_sodium = 0;
  std::map<std::string, std::map<std::string, std::string>>
      rows;                               // "usda:wine_white" -> column -> cell
  std::set<std::string> allergens;        // the closed list, by key
  std::map<std::string, Values> assumed;  // group -> property -> value
};

struct Ingredient {
  std::string key, name, group, note, file, from;
  Words also, allergens;
  Values values;
  std::set<std::string> unknown;
  bool by_difference = false;
};

// --- reading one value ---

std::string known_source(const Reference& reference,
                         const std::string& where,
                         const toml::table& row,
                         const std::string& name) {
  const auto source = row["source"].value<std::string>();
  if (!source) stop(where, fmt::format("'{}' has no source", name));
  if (!reference.sources.contains(*source)) {
    stop(where,
         fmt::format("'{}' names a source that data/sources.toml does not: '{}'", name, *source));
  }
  return *source;
}

void check_order(const std::string& where, const std::string& name, const Value& value) {
  if (value.low <= value.typical && value.typical <= value.high && value.low >= 0) return;
  stop(where,
       fmt::format("'{}' must have 0 <= low <= value <= high, not {} <= {} <= {}",
                   name,
                   value.low,
                   value.typical,
                   value.high));
}

void check_unit(const std::string& where,
                const std::string& name,
                const std::string& property,
                const std::string& unit) {
  const Words& allowed = units_of(property);
  if (allowed.empty()) stop(where, fmt::format("'{}': there is no property '{}'", name, property));
  if (holds(allowed, unit)) return;
  stop(
      where,
      fmt::format("'{}' cannot be in '{}'; it can be in {}", name, unit, fmt::join(allowed, ", ")));
}

/// { value, low, high, unit, source, at, note }; low and high equal value when left out.
Value read_value(const Reference& reference,
                 const std::string& file,
                 const toml::table& row,
                 const std::string& name) {
  const std::string where = place(file, row);
  const auto typical = row["value"].value<double>();
  if (!typical) stop(where, fmt::format("'{}' has no value", name));
  const auto unit = row["unit"].value<std::string>();
  if (!unit) stop(where, fmt::format("'{}' has no unit", name));
  Value value{*typical,
              row["low"].value_or(*typical),
              row["high"].value_or(*typical),
              *unit,
              known_source(reference, where, row, name),
              row["at"].value_or(std::string()),
              row["note"].value_or(std::string())};
  check_order(where, name, value);
  return value;
}

// --- the composition tables ---

std::optional<double> cell(const std::map<std::string, std::string>& row,
                           const std::string& column) {
  const auto found = row.find(column);
  if (found == row.end() || found->second.empty()) return std::nullopt;
  double value = 0;
  const std::string& text = found->second;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

/// The cells of one row under the larder's names [g/100 g]; what the table leaves blank is left
/// out.
struct Tabled {
  std::map<std::string, double> grams;
  std::optional<double> carbohydrate;
  bool holds_fibre = false;  // by difference it does, in the European convention it does not
  std::optional<double> all_sugars;
  std::string source;
};

Tabled read_usda(const std::map<std::string, std::string>& row, double salt_per_sodium) {
  Tabled tabled;
  static const std::array<std::array<const char*, 2>, 13> columns = {{{"water", "water_g"},
                                                                      {"protein", "protein_g"},
                                                                      {"fat", "fat_g"},
                                                                      {"fibre", "fibre_g"},
                                                                      {"ash", "ash_g"},
                                                                      {"ethanol", "alcohol_g"},
                                                                      {"starch", "starch_g"},
                                                                      {"glucose", "glucose_g"},
                                                                      {"fructose", "fructose_g"},
                                                                      {"sucrose", "sucrose_g"},
                                                                      {"maltose", "maltose_g"},
                                                                      {"lactose", "lactose_g"},
                                                                      {"salt", "sodium_mg"}}};
  for (const auto& [name, column] : columns) {
    if (const auto value = cell(row, column)) tabled.grams[name] = *value;
  }
  if (tabled.grams.contains("salt")) tabled.grams["salt"] *= 1e-3 * salt_per_sodium;
  tabled.carbohydrate = cell(row, "carbohydrate_by_difference_g");
  tabled.holds_fibre = true;
  tabled.all_sugars = cell(row, "sugars_total_g");
  const bool legacy = row.at("dataset").find("Legacy") != std::string::npos;
  tabled.source = legacy ? "usda_legacy" : "usda_sr26";
  return tabled;
}

Tabled read_ciqual(const std::map<std::string, std::string>& row) {
  Tabled tabled;
  static const std::array<std::array<const char*, 2>, 8> columns = {{{"water", "water_g"},
                                                                     {"protein", "protein_g"},
                                                                     {"fat", "fat_g"},
                                                                     {"fibre", "fibre_g"},
                                                                     {"ash", "ash_g"},
                                                                     {"ethanol", "alcohol_g"},
                                                                     {"starch", "starch_g"},
                                                                     {"salt", "salt_g"}}};
  for (const auto& [name, column] : columns) {
    if (const auto value = cell(row, column)) tabled.grams[name] = *value;
  }
  tabled.carbohydrate = cell(row, "carbohydrate_available_g");
  tabled.all_sugars = cell(row, "sugars_g");
  tabled.source = "ciqual";
  return tabled;
}

/// What both tables give in milligrams.
void read_minerals(const std::map<std::string, std::string>& row, Tabled& tabled) {
  for (const char* mineral : {"calcium", "potassium"}) {
    if (const auto value = cell(row, fmt::format("{}_mg", mineral)))
      tabled.grams[mineral] = 1e-3 * *value;
  }
}

/// Salt is part of a table's ash: take it out, or leave it in where it is next to nothing and ash
/// is what counts.
void part_salt_from_ash(const std::string& group, std::map<std::string, double>& grams) {
  if (!grams.contains("salt")) return;
  const double ash = grams.contains("ash") ? grams["ash"] : 0;
  if (group == "flour" || group == "starter") {
    grams.erase("salt");
    return;
  }
  grams["salt"] = std::min(grams["salt"], ash);
  grams["ash"] = ash - grams["salt"];
}

bool states_any_sugar(const Ingredient& ingredient) {
  return std::any_of(sugars.begin(), sugars.end(), [&](const std::string& sugar) {
    return ingredient.values.contains(sugar);
  });
}

void add_from_table(Ingredient& ingredient,
                    const std::string& property,
                    double grams,
                    const std::string& source,
                    const std::string& at) {
  ingredient.values.try_emplace(property, Value{grams, grams, grams, "g/100g", source, at, ""});
}

/// A part in g/100 g: as the ingredient states it, else as the table does, else nothing.
double grams_of(const std::string& where,
                const Ingredient& ingredient,
                const Tabled& tabled,
                const std::string& property) {
  const auto stated = ingredient.values.find(property);
  if (stated != ingredient.values.end()) {
    if (stated->second.unit == "g/100g") return stated->second.typical;
    stop(where,
         fmt::format("'{}': beside a table row, {} is stated in g/100g", ingredient.key, property));
  }
  const auto cell = tabled.grams.find(property);
  return cell == tabled.grams.end() ? 0 : cell->second;
}

/// Starch where the table is blank: carbohydrate - fibre - sugars, an upper value. Then what is
/// left of the carbohydrate, sugars still in it; the larder takes them out when densities are
/// known.
void divide_carbohydrate(const std::string& where,
                         Ingredient& ingredient,
                         const Tabled& tabled,
                         const std::string& row) {
  if (!tabled.carbohydrate) return;
  const double fibre = tabled.holds_fibre ? grams_of(where, ingredient, tabled, "fibre") : 0;
  const double without_fibre = std::max(0.0, *tabled.carbohydrate - fibre);
  const bool starchy = holds({"flour", "starter", "malt", "seed"}, ingredient.group);
  if (starchy && !tabled.grams.contains("starch") && !ingredient.values.contains("starch")) {
    const double starch = std::max(0.0, without_fibre - tabled.all_sugars.value_or(0));
    add_from_table(
        ingredient, "starch", starch, "derived", "carbohydrate less fibre and sugars of " + row);
  }
  const double rest = std::max(0.0, without_fibre - grams_of(where, ingredient, tabled, "starch"));
  ingredient.by_difference = !ingredient.values.contains("other_carbohydrate");
  add_from_table(ingredient,
                 "other_carbohydrate",
                 rest,
                 "derived",
                 "carbohydrate less fibre, starch, sugars, acids and glycerol of " + row);
}

void fill_from_table(const Reference& reference,
                     const std::string& where,
                     const toml::table& table,
                     Ingredient& ingredient) {
  const auto from = table["from"].value<std::string>();
  if (!from) return;
  const auto row = reference.rows.find(*from);
  if (row == reference.rows.end()) {
    stop(where, fmt::format("'{}' is taken from '{}', which no table has", ingredient.key, *from));
  }
  Tabled tabled = from->starts_with("usda:") ? read_usda(row->second, reference.salt_per_sodium)
                                             : read_ciqual(row->second);
  read_minerals(row->second, tabled);
  part_salt_from_ash(ingredient.group, tabled.grams);
  if (ingredient.values.contains("strength")) tabled.grams.erase("ethanol");
  const bool stated = states_any_sugar(ingredient);
  bool divided = stated;
  for (const std::string& sugar : sugars) {
    if (stated) tabled.grams.erase(sugar);
    if (tabled.grams.contains(sugar)) divided = true;
  }
  const toml::table* shares = table["sugars"].as_table();
  if (shares == nullptr && !divided && tabled.all_sugars.value_or(0) > 0) {
    stop(where,
         fmt::format(
             "'{}': {} has {} g of sugars that nobody divides; say sugars = {{ glucose = … }}",
             ingredient.key,
             *from,
             *tabled.all_sugars));
  }
  divide_carbohydrate(where, ingredient, tabled, *from);
  for (const auto& [property, grams] : tabled.grams) {
    add_from_table(ingredient, property, grams, tabled.source, *from);
  }
}

constexpr double nearly_all = 0.9;

/// The sugars that a row names one by one, in g/100 g.
template <class Row>
double divided_by_table(const Row& row) {
  double sum = 0;
  for (const std::string& sugar : sugars) sum += cell(row, sugar + "_g").value_or(0);
  return sum;
}

/// sugars = { glucose = 0.4, fructose = 0.6, source } divides what the table gives as one sum;
/// with value, low, high, unit it divides that instead.
void divide_sugars(const Reference& reference,
                   const std::string& file,
                   const toml::table& table,
                   Ingredient& ingredient) {
  const toml::table* shares = table["sugars"].as_table();
  if (shares == nullptr) return;
  const std::string where = place(file, *shares);
  Value all;
  if (shares->contains("value")) {
    all = read_value(reference, file, *shares, ingredient.key + ".sugars");
  } else {
    const auto from = table["from"].value<std::string>();
    const auto row = reference.rows.find(from.value_or(""));
    if (row == reference.rows.end())
      stop(where, fmt::format("'{}': sugars of what?", ingredient.key));
    const auto sum = cell(row->second, from->starts_with("usda:") ? "sugars_total_g" : "sugars_g");
    if (!sum) stop(where, fmt::format("'{}': {} gives no sum of sugars", ingredient.key, *from));
    if (*sum > 0 && divided_by_table(row->second) > nearly_all * *sum) {
      stop(where,
           fmt::format(
               "'{}': {} divides its sugars itself; leave sugars out", ingredient.key, *from));
    }
    const std::string source = known_source(reference, where, *shares, ingredient.key + ".sugars");
    all = Value{*sum, *sum, *sum, "g/100g", source, "share of the sugars of " + *from, ""};
  }
  double sum = 0;
  for (const std::string& sugar : sugars) {
    const double share = (*shares)[sugar].value_or(0.0);
    sum += share;
    if (share == 0) continue;
    check_unit(where, ingredient.key + ".sugars", sugar, all.unit);
    Value part = all;
    part.typical *= share;
    part.low *= share;
    part.high *= share;
    ingredient.values[sugar] = part;
  }
  if (std::abs(sum - 1) > 1e-9) {
    stop(where,
         fmt::format("'{}': the shares of its sugars add up to {}, not 1", ingredient.key, sum));
  }
}

// --- one ingredient ---

Words read_words(const std::string& file, const toml::table& table, const char* key) {
  Words words;
  const toml::array* array = table[key].as_array();
  if (array == nullptr) return words;
  for (const toml::node& node : *array) {
    const auto word = node.value<std::string>();
    if (!word) stop(place(file, node), fmt::format("'{}' is a list of words", key));
    words.push_back(*word);
  }
  return words;
}

/// absent = { of = ["sorbate", …], source = "practice" }: known to be zero.
void read_absent(const Reference& reference,
                 const std::string& file,
                 const toml::table& table,
                 Ingredient& ingredient) {
  const toml::table* absent = table["absent"].as_table();
  if (absent == nullptr) return;
  const std::string where = place(file, *absent);
  const std::string source = known_source(reference, where, *absent, ingredient.key + ".absent");
  for (const std::string& property : read_words(file, *absent, "of")) {
    const Words& units = units_of(property);
    if (units.empty())
      stop(where, fmt::format("'{}': there is no property '{}'", ingredient.key, property));
    const bool added =
        ingredient.values.try_emplace(property, Value{0, 0, 0, units[0], source, "absent", ""})
            .second;
    if (!added)
      stop(where, fmt::format("'{}': '{}' is stated and absent", ingredient.key, property));
  }
}

/// Whatever a group may not leave unsaid must have a value, be absent, or be called "unknown".
void check_nothing_unsaid(const Reference& reference,
                          const std::string& where,
                          const Ingredient& ingredient) {
  const auto assumed = reference.assumed.find(ingredient.group);
  const Values none;
  const Values& needed = assumed == reference.assumed.end() ? none : assumed->second;
  for (const auto& [property, value] : needed) {
    if (ingredient.values.contains(property) || ingredient.unknown.contains(property)) continue;
    stop(where,
         fmt::format("'{}' says nothing of {}; give a value, call it absent or \"unknown\"",
                     ingredient.key,
                     property));
  }
  for (const std::string& property : ingredient.unknown) {
    if (needed.contains(property)) continue;
    stop(where,
         fmt::format("'{}': {} is unknown, but unknown.toml does not say what to assume for a {}",
                     ingredient.key,
                     property,
                     ingredient.group));
  }
  if (ingredient.group == "drink" && !ingredient.values.contains("strength")) {
    stop(where, fmt::format("'{}' is a drink without a strength", ingredient.key));
  }
}

void read_property(const Reference& reference,
                   const std::string& file,
                   const std::string& property,
                   const toml::node& node,
                   Ingredient& ingredient) {
  const std::string where = place(file, node);
  const std::string name = ingredient.key + "." + property;
  if (node.value<std::string>() == "unknown") {
    if (units_of(property).empty())
      stop(where, fmt::format("'{}': there is no such property", name));
    ingredient.unknown.insert(property);
    return;
  }
  const toml::table* row = node.as_table();
  if (row == nullptr) stop(where, fmt::format("'{}' is not {{ value, unit, source }}", name));
  const Value value = read_value(reference, file, *row, name);
  check_unit(where, name, property, value.unit);
  ingredient.values[property] = value;
}

Ingredient read_ingredient(const Reference& reference,
                           const std::string& file,
                           const std::string& key,
                           const toml::table& table) {
  static const Words not_properties = {
      "name", "also", "group", "allergens", "note", "from", "sugars", "absent"};
  const std::string where = place(file, table);
  Ingredient ingredient;
  ingredient.key = key;
  ingredient.file = "larder/" + base_name(file);
  ingredient.name = table["name"].value_or(std::string());
  ingredient.group = table["group"].value_or(std::string());
  ingredient.note = table["note"].value_or(std::string());
  ingredient.from = table["from"].value_or(std::string());
  ingredient.also = read_words(file, table, "also");
  ingredient.allergens = read_words(file, table, "allergens");
  if (ingredient.name.empty()) stop(where, fmt::format("'{}' has no name", key));
  if (!holds(groups, ingredient.group)) {
    stop(where, fmt::format("'{}' belongs to no known group: '{}'", key, ingredient.group));
  }
  for (const std::string& allergen : ingredient.allergens) {
    if (!reference.allergens.contains(allergen))
      stop(where, fmt::format("'{}': unknown allergen '{}'", key, allergen));
  }
  for (const auto& [inner, node] : table) {
    const std::string property(inner.str());
    if (!holds(not_properties, property))
      read_property(reference, file, property, node, ingredient);
  }
  divide_sugars(reference, file, table, ingredient);
  read_absent(reference, file, table, ingredient);
  fill_from_table(reference, where, table, ingredient);
  check_nothing_unsaid(reference, where, ingredient);
  return ingredient;
}

// --- all of them ---

std::string folded(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c != ' ' && c != '-' && c != '_')
      out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return out;
}

void claim(std::map<std::string, std::string>& owners,
           const std::string& where,
           const std::string& word,
           const std::string& key) {
  const auto [owner, added] = owners.try_emplace(folded(word), key);
  if (added || owner->second == key) return;
  stop(where, fmt::format("'{}' and '{}' are both called '{}'", owner->second, key, word));
}

std::vector<Ingredient> read_ingredients(const Reference& reference, const Words& files) {
  std::vector<Ingredient> all;
  std::set<std::string> keys;
  std::map<std::string, std::string> owners;
  for (const std::string& file : files) {
    const toml::table tables = parse_toml(file);
    std::vector<std::pair<std::string, const toml::node*>> in_order;
    for (const auto& [key, node] : tables) in_order.emplace_back(key.str(), &node);
    std::sort(in_order.begin(), in_order.end(), [](const auto& a, const auto& b) {
      return a.second->source().begin.line < b.second->source().begin.line;
    });
    for (const auto& [key, node] : in_order) {
      const std::string where = place(file, *node);
      if (!node->is_table()) stop(where, fmt::format("'{}' is not an ingredient", key));
      if (!keys.insert(key).second) stop(where, fmt::format("'{}' is in the larder twice", key));
      all.push_back(read_ingredient(reference, file, key, *node->as_table()));
      for (const std::string& word : {key, all.back().name}) claim(owners, where, word, key);
      for (const std::string& word : all.back().also) claim(owners, where, word, key);
    }
  }
  return all;
}

void read_table(const std::string& file, const std::string& prefix, Reference& reference) {
  const Csv csv = read_csv(file);
  const auto key = std::find(csv.columns.begin(), csv.columns.end(), "key");
  if (key == csv.columns.end()) stop(file, "no column 'key'");
  const auto at = static_cast<std::size_t>(key - csv.columns.begin());
  for (const auto& row : csv.rows) {
    auto& cells = reference.rows[prefix + ":" + row[at]];
    for (std::size_t c = 0; c < row.size(); ++c) cells[csv.columns[c]] = row[c];
  }
}

/// unknown.toml: [group] property = { low, value, high, unit, source }, per kilogram.
void read_assumed(const std::string& file, Reference& reference) {
  for (const auto& [group, node] : parse_toml(file)) {
    const std::string name(group.str());
    if (!holds(groups, name)) stop(place(file, node), fmt::format("there is no group '{}'", name));
    const toml::table* table = node.as_table();
    if (table == nullptr)
      stop(place(file, node), fmt::format("'{}' is not a group of values", name));
    for (const auto& [inner, row] : *table) {
      const std::string property(inner.str());
      const std::string full = name + "." + property;
      if (!row.is_table())
        stop(place(file, row), fmt::format("'{}' is not {{ value, unit, source }}", full));
      const Value value = read_value(reference, file, *row.as_table(), full);
      check_unit(place(file, row), full, property, value.unit);
      if (value.unit.ends_with("/L"))
        stop(place(file, row), fmt::format("'{}' must be per kilogram", full));
      reference.assumed[name][property] = value;
    }
  }
}

Reference read_reference(const Words& files) {
  Reference reference;
  for (const auto& [key, node] : parse_toml(files[0]))
    reference.sources.insert(std::string(key.str()));
  const toml::table laws = parse_toml(files[1]);
  const auto salt = laws["larder"]["salt_per_sodium"]["value"].value<double>();
  if (!salt) stop(files[1], "no larder.salt_per_sodium");
  reference.salt_per_sodium = *salt;
  read_table(files[2], "usda", reference);
  read_table(files[3], "ciqual", reference);
  for (const auto& row : read_csv(files[4]).rows) reference.allergens.insert(row.front());
  read_assumed(files[5], reference);
  return reference;
}

// --- writing ---

std::string written(const std::string& property, const Value& value) {
  return fmt::format("{{Property::{}, {}, {}, {}, {}, &source::{}, {}, {}}}",
                     property,
                     literal(value.typical),
                     literal(value.low),
                     literal(value.high),
                     quoted(value.unit),
                     value.source,
                     quoted(value.at),
                     quoted(value.note));
}

std::string written_words(const std::string& name, const Words& words) {
  if (words.empty()) return "";
  std::string out = fmt::format("inline constexpr std::string_view {}[] = {{", name);
  for (const std::string& word : words) out += quoted(word) + ", ";
  return out + "};\n";
}

std::string written_header(const Reference& reference, const std::vector<Ingredient>& all) {
  std::string arrays;
  std::string rows;
  for (const Ingredient& one : all) {
    arrays += written_words(one.key + "_also", one.also);
    arrays += written_words(one.key + "_allergens", one.allergens);
    if (!one.values.empty())
      arrays += fmt::format("inline constexpr Value {}_values[] = {{\n", one.key);
    for (const auto& [property, value] : one.values)
      arrays += "    " + written(property, value) + ",\n";
    if (!one.values.empty()) arrays += "};\n\n";
    rows += fmt::format("    {{{}, {}, Group::{}, {}, {}, {}, {}, {}, {}, {}}},\n",
                        quoted(one.key),
                        quoted(one.name),
                        one.group,
                        quoted(one.note),
                        quoted(one.file),
                        quoted(one.from),
                        one.also.empty() ? "{}" : one.key + "_also",
                        one.allergens.empty() ? "{}" : one.key + "_allergens",
                        one.values.empty() ? "{}" : one.key + "_values",
                        one.by_difference);
  }
  std::string assumptions;
  for (const auto& [group, values] : reference.assumed) {
    for (const auto& [property, value] : values) {
      assumptions += fmt::format("    {{Group::{}, {}}},\n", group, written(property, value));
    }
  }
  return "// Written by tools/compile_larder from data/larder/. Do not edit.\n#pragma once\n"
         "#include \"generated/sources.h\"\n#include \"larder/internal/compiled.h\"\n\n"
         "namespace barm::larder::compiled {\n\n" +
         arrays + "inline constexpr Row rows[] = {\n" + rows +
         "};\n\ninline constexpr Assumption assumptions[] = {\n" + assumptions +
         "};\n\n}  // namespace barm::larder::compiled\n";
}

void compile(const Words& arguments) {
  if (arguments.size() < 8)
    stop("compile_larder", "OUT SOURCES LAWS USDA CIQUAL ALLERGENS UNKNOWN FILE…");
  const Reference reference = read_reference(Words(arguments.begin() + 1, arguments.begin() + 7));
  const auto all = read_ingredients(reference, Words(arguments.begin() + 7, arguments.end()));
  write_if_changed(arguments[0], written_header(reference, all));
}

}  // namespace

}  // namespace barm::tools

int main(int argc, char** argv) {
  return barm::tools::run_tool(
      [&] { barm::tools::compile(std::vector<std::string>(argv + 1, argv + argc)); });
}

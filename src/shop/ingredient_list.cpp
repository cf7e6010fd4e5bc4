#include "shop/ingredient_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "base/letters.h"
#include "generated/tables.h"
#include "shop/internal/starter.h"
#include "shop/rounding.h"
#include "units/units.h"

namespace barm::shop {

using formula::Bake;
using formula::Portion;
using larder::Composition;
using larder::Group;
using larder::Ingredient;
using larder::Property;

namespace {

constexpr double two_percent = 0.02;
constexpr double five_percent = 0.05;

// --- names ---

const tables::label_names_row* row_of(const Ingredient& ingredient) {
  for (const auto& row : tables::label_names) {
    if (row.key == ingredient.key) return &row;
  }
  return nullptr;
}

/// An allergen as it stands inside a name: "oats" is also "oat".
std::string stem(const std::string& allergen) {
  return allergen.size() > 3 && allergen.back() == 's' ? allergen.substr(0, allergen.size() - 1)
                                                       : allergen;
}

/// The name with its allergens in braces: those that stand in it, and behind it those that do not.
std::string with_allergens(std::string name, const std::vector<std::string>& allergens) {
  std::string behind;
  for (const std::string& allergen : allergens) {
    if (allergen == "sulphites") continue;
    const std::size_t at = small_letters(name).find(stem(allergen));
    if (at == std::string::npos) {
      behind += (behind.empty() ? "" : ", ") + ("{" + allergen + "}");
      continue;
    }
    const std::size_t length =
        small_letters(name).find(allergen) == at ? allergen.size() : stem(allergen).size();
    name.insert(at + length, "}");
    name.insert(at, "{");
  }
  return behind.empty() ? name : name + " (" + behind + ")";
}

std::string name_of(const Ingredient& ingredient, Law law) {
  const auto* row = row_of(ingredient);
  if (row != nullptr) return std::string(law == Law::us ? row->us_name : row->name);
  return with_allergens(ingredient.name, ingredient.allergens);
}

/// "dry mead ({sulphites})" when the loaf holds enough of them.
std::string with_sulphites(const std::string& name, Law law) {
  const std::string word = law == Law::us ? "sulfites" : "{sulphites}";
  if (name.ends_with(")")) return name.substr(0, name.size() - 1) + ", " + word + ")";
  return name + " (" + word + ")";
}

std::string levain_name(const Bake& bake, const Portion& portion, Law law) {
  const Ingredient* flour = nullptr;
  if (portion.levain && bake.levain) flour = &bake.levain->flour;
  for (const Portion& one : bake.bowl) {
    if (flour == nullptr && one.ingredient.is_flour()) flour = &one.ingredient;
  }
  const std::string of = flour == nullptr ? "flour" : name_of(*flour, law);
  return (law == Law::us ? "sourdough starter (" : "sourdough (") + of + ", water)";
}

// --- what stands in the name of the bread ---

/// Words of an ingredient's name that say nothing of what it is.
constexpr std::array plain_words = {
    "dry",     "sweet",   "cold",   "hot",    "white",  "light", "dark",  "strong",    "very",
    "half",    "full",    "fat",    "medium", "brown",  "soft",  "plain", "fresh",     "water",
    "flour",   "bread",   "loaf",   "with",   "and",    "the",   "salt",  "sourdough", "levain",
    "percent", "protein", "powder", "ash",    "brewed", "spirit"};

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : small_letters(text) + " ") {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 || byte >= 0x80) {
      word += c;
      continue;
    }
    if (word.size() >= 3) words.push_back(word);
    word.clear();
  }
  return words;
}

bool says_nothing(const std::string& word) {
  return std::find(plain_words.begin(), plain_words.end(), word) != plain_words.end();
}

bool stands_in_name(const Ingredient& ingredient, const std::vector<std::string>& name) {
  const auto words = words_of(ingredient.name);
  return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
    return !says_nothing(word) && std::find(name.begin(), name.end(), word) != name.end();
  });
}

// --- weights ---

/// A line of the bowl on its way into the list.
struct Line {
  std::string name;
  double used = 0;    ///< [kg] of the batch, handling loss taken off
  double solids = 0;  ///< [kg] of it that stays
  double water = 0;   ///< [kg] of it that may leave
  double alcohol = 0;
  bool pool = false;  ///< water or a drink
  bool plain_water = false;
  bool starter = false;
  bool named = false;
};

bool is_in_pool(const Portion& portion) {
  return !internal::is_starter(portion) &&
         (portion.ingredient.group == Group::water || portion.ingredient.group == Group::drink);
}

Line line_of(const Bake& bake,
             const Portion& portion,
             const Composition& c,
             double mass,
             bool sulphites,
             Law law) {
  Line line;
  const bool starter = internal::is_starter(portion);
  line.name = starter ? levain_name(bake, portion, law) : name_of(portion.ingredient, law);
  const bool sulphited = portion.ingredient.is_liquid() && c[Property::total_sulphite] > 0;
  if (sulphites && sulphited && !starter) line.name = with_sulphites(line.name, law);
  line.used = mass;
  line.pool = is_in_pool(portion);
  line.plain_water = portion.ingredient.group == Group::water;
  line.starter = starter;
  line.named = !starter && stands_in_name(portion.ingredient, words_of(bake.name));
  line.water = line.pool ? mass * c[Property::water] : 0;
  line.alcohol = line.pool ? mass * c[Property::ethanol] : 0;
  line.solids = mass - line.water - line.alcohol;
  return line;
}

/// Lines of one legal name are one ingredient.
std::vector<Line> merged(const std::vector<Line>& lines) {
  std::vector<Line> out;
  for (const Line& line : lines) {
    const auto same = std::find_if(
        out.begin(), out.end(), [&](const Line& one) { return one.name == line.name; });
    if (same == out.end()) {
      out.push_back(line);
      continue;
    }
    same->used += line.used;
    same->solids += line.solids;
    same->water += line.water;
    same->alcohol += line.alcohol;
    same->named = same->named || line.named;
  }
  return out;
}

/// Share of the added water that is left.
double water_left(const std::vector<Line>& lines, double finished, double alcohol_kept) {
  double rest = finished;
  double water = 0;
  for (const Line& line : lines) {
    rest -= line.solids + alcohol_kept * line.alcohol;
    water += line.water;
  }
  return water > 0 ? std::clamp(rest / water, 0.0, 1.0) : 0;
}

std::vector<std::string> rules_of(const Line& line, Law law) {
  if (law == Law::us) {
    return line.starter ? std::vector<std::string>{"us_order", "us_compound"}
                        : std::vector<std::string>{"us_order"};
  }
  std::vector<std::string> rules;
  rules.emplace_back(line.pool ? "water_and_volatiles" : "ingredient_order");
  if (line.starter) rules.emplace_back("compound");
  if (line.pool && !line.plain_water) rules.emplace_back("compound_drink");
  return rules;
}

Listed listed(const Line& line, double left, double finished, Law law) {
  Listed item;
  item.name = marked(line.name, law != Law::us);
  item.used = Mass::from_si(line.used);
  item.left = Mass::from_si(line.solids + line.water * left);
  item.drink = line.pool && !line.plain_water;
  item.of_loaf = item.left.si() / finished;
  if (line.named) item.quantity = line.used / finished;
  if (line.named && item.drink) item.quantity_left = item.of_loaf;
  item.under_two_percent = item.of_loaf < two_percent;
  item.may_be_left_out = line.plain_water && item.of_loaf <= five_percent;
  item.rules = rules_of(line, law);
  return item;
}

// --- the text ---

/// Above 100 %, alone or together, quantities stand as grams used for 100 g.
void say_quantities(std::vector<Listed>& items) {
  double sum = 0;
  for (const Listed& item : items) sum += item.quantity;
  for (Listed& item : items) {
    if (item.quantity <= 0) continue;
    item.quantity_said = sum > 1 ? fmt::format("{} g in 100 g", whole(100 * item.quantity))
                                 : quantity_percent(100 * item.quantity) + " %";
    item.rules.emplace_back("quid");
    item.rules.emplace_back("quid_moisture");
  }
}

void append(LabelText& text, const LabelText& more) {
  text.insert(text.end(), more.begin(), more.end());
}

LabelText text_of(const std::vector<Listed>& items, Law law) {
  LabelText text{{"Ingredients: ", false}};
  bool contains = false;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) text.push_back({", ", false});
    if (law == Law::us && items[i].under_two_percent && !contains && i > 0) {
      text.back().text = "; contains 2% or less of: ";
      contains = true;
    }
    append(text, items[i].name);
    if (!items[i].quantity_said.empty()) text.push_back({" " + items[i].quantity_said, false});
  }
  text.push_back({".", false});
  return text;
}

std::string names_of(const std::vector<Listed>& items) {
  std::string out;
  for (const Listed& item : items) out += (out.empty() ? "" : ", ") + plain(item.name);
  return out;
}

/// In the bowl's order added water still stands by what is left of it.
double bowl_weight(const Listed& item, Law law) {
  const bool water = !item.drink && item.left < item.used && law != Law::us;
  return water ? item.left.si() : item.used.si();
}

}  // namespace

std::string plain(const LabelText& text, bool capitals) {
  std::string out;
  for (const TextPiece& piece : text) {
    std::string part = piece.text;
    if (capitals && piece.strong) {
      std::transform(part.begin(), part.end(), part.begin(), [](unsigned char c) {
        return static_cast<char>(std::toupper(c));
      });
    }
    out += part;
  }
  return out;
}

LabelText marked(std::string_view text, bool with_emphasis) {
  LabelText out;
  std::string part;
  const auto finish = [&](bool strong) {
    if (!part.empty()) out.push_back({part, strong && with_emphasis});
    part.clear();
  };
  for (const char c : text) {
    if (c == '{') {
      finish(false);
    } else if (c == '}') {
      finish(true);
    } else {
      part += c;
    }
  }
  finish(false);
  return out;
}

IngredientList ingredient_list(const Bake& bake,
                               std::span<const Composition> settled,
                               const formula::Bowl& bowl,
                               double alcohol_kept,
                               bool sulphites,
                               Law law) {
  const double handled = 1 - bake.handling_loss;
  const double finished = bowl.dough.si() * handled * (1 - bake.bake_loss);
  std::vector<Line> lines;
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    const double mass = bowl.lines[i].actual.si() * handled;
    if (mass <= 0) continue;
    lines.push_back(line_of(bake, bake.bowl[i], settled[i], mass, sulphites, law));
  }
  lines = merged(lines);
  const double left = water_left(lines, finished, alcohol_kept);
  IngredientList list;
  list.finished = Mass::from_si(finished);
  for (const Line& line : lines) {
    Listed item = listed(line, left, finished, law);
    item.left = item.left + Mass::from_si(alcohol_kept * line.alcohol);
    item.of_loaf = item.left.si() / finished;
    if (item.quantity_left > 0) item.quantity_left = item.of_loaf;
    list.items.push_back(std::move(item));
  }
  const auto by_bowl = [&](const Listed& a, const Listed& b) {
    return bowl_weight(a, law) > bowl_weight(b, law);
  };
  std::stable_sort(list.items.begin(), list.items.end(), by_bowl);
  list.by_the_bowl = names_of(list.items);
  if (law != Law::us) {
    std::stable_sort(list.items.begin(), list.items.end(), [](const Listed& a, const Listed& b) {
      return a.left > b.left;
    });
  }
  list.order_depends = names_of(list.items) != list.by_the_bowl;
  if (law != Law::us) say_quantities(list.items);
  list.text = text_of(list.items, law);
  return list;
}

std::vector<std::string> allergens_of(const Bake& bake, Law law) {
  std::set<std::string> names;
  for (const Portion& portion : bake.bowl) {
    names.insert(portion.ingredient.allergens.begin(), portion.ingredient.allergens.end());
    if (portion.levain && bake.levain) {
      names.insert(bake.levain->flour.allergens.begin(), bake.levain->flour.allergens.end());
    }
  }
  names.erase("sulphites");
  if (law == Law::us) {
    for (const char* not_in_us : {"barley", "rye", "oats"}) names.erase(not_in_us);
  }
  return {names.begin(), names.end()};
}

}  // namespace barm::shop

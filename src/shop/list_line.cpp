#include "shop/internal/list_line.h"

#include <algorithm>

#include "larder/larder.h"
#include "shop/internal/say.h"
#include "shop/internal/starter.h"
#include "shop/told.h"

namespace barm::shop::internal {

using formula::Bake;
using formula::Portion;
using larder::Composition;
using larder::Group;
using larder::Ingredient;
using larder::Property;

namespace {

constexpr double strength_without_a_list = 0.012;  // Art. 16(4): above 1.2 % vol

/// The key under which the label knows the ingredient: its own, or that of what it is like.
std::string key_of(const Ingredient& ingredient) {
  return ingredient.on_label.own ? ingredient.on_label.like : ingredient.key;
}

/// "lactic acid, 80 %" without its strength.
std::string without_percentage(const std::string& name) {
  for (std::size_t at = name.find(", "); at != std::string::npos; at = name.find(", ", at + 1)) {
    const bool digit = at + 2 < name.size() && name[at + 2] >= '0' && name[at + 2] <= '9';
    if (digit && name.find('%', at) != std::string::npos) return name.substr(0, at);
  }
  return name;
}

/// The minerals and vitamins that the United Kingdom has added to wheat flour that is not
/// wholemeal; folic acid from 13 December 2026.
std::string added_to_flour(const Bake& bake, const LabelWord& word, const ListOptions& options) {
  constexpr time::Date with_folic_acid{20800};  // 2026-12-13
  const bool fortified =
      options.law == Law::uk && word.kind == "fortified" && bake.label.fortified != "no";
  if (!fortified) return "";
  std::string added = term("fortification", options.tongue);
  if (bake.mixed_at && bake.mixed_at->date && *bake.mixed_at->date >= with_folic_acid)
    added += ", " + term("folic_acid", options.tongue);
  return added;
}

std::string name_of(const Ingredient& ingredient, Tongue tongue) {
  if (!ingredient.on_label.name.empty()) return ingredient.on_label.name;
  const LabelWord word = label_word(key_of(ingredient), tongue);
  if (ingredient.on_label.own || word.name.empty()) return without_percentage(ingredient.name);
  return listed_name(word, tongue);
}

std::string usual_list(const LabelWord& word, Tongue tongue) {
  std::vector<std::string> names;
  for (const std::string_view part : word.of)
    names.push_back(listed_name(label_word(part, tongue), tongue));
  return joined(names);
}

bool wants_list(const Ingredient& ingredient, const Composition& c, Law law) {
  if (law == Law::us) return true;
  if (ingredient.group == Group::drink) return c[Property::strength] <= strength_without_a_list;
  return true;
}

void add_list(const Bake& bake,
              const Ingredient& ingredient,
              const Composition& c,
              const ListOptions& options,
              ListLine& line) {
  const LabelWord word = label_word(key_of(ingredient), options.tongue);
  line.list = added_to_flour(bake, word, options);
  if (!wants_list(ingredient, c, options.law)) return;
  if (!ingredient.on_label.list.empty()) {
    line.list = ingredient.on_label.list;
  } else if (!word.of.empty()) {
    line.list = usual_list(word, options.tongue);
    line.usual_list = true;
  }
}

/// Whether any sulphite can come with it.
bool brings_sulphite(const Ingredient& ingredient, const Composition& c, Tongue tongue) {
  if (c[Property::total_sulphite] > 0 || sulphite_is_asked(ingredient, tongue)) return true;
  const auto& known = ingredient[Property::total_sulphite];
  if (known) return known->high > 0;
  const auto assumed = larder::assumed(ingredient, Property::total_sulphite);
  return assumed && assumed->high > 0;
}

// --- sourdough ---

void add_flour(const std::string& name, double mass, std::vector<SourFlour>& flours) {
  const auto same = std::find_if(
      flours.begin(), flours.end(), [&](const SourFlour& one) { return one.name == name; });
  if (mass <= 0 || name.empty()) return;
  if (same == flours.end()) {
    flours.push_back({name, mass, false});
  } else {
    same->mass += mass;
  }
}

/// The name of the flour that a ripe starter lives on.
std::string flour_of_starter(const Ingredient& starter, const Bake& bake, Tongue tongue) {
  const LabelWord word = label_word(key_of(starter), tongue);
  if (!word.of.empty()) return listed_name(label_word(word.of.front(), tongue), tongue);
  for (const Portion& one : bake.bowl) {
    if (one.ingredient.is_flour()) return name_of(one.ingredient, tongue);
  }
  return "";
}

void add_sour_flours(
    const Bake& bake, const Portion& portion, const Composition& c, Tongue tongue, ListLine& line) {
  const double flour = line.used / (1 + c[Property::hydration]);
  const std::string ripe = flour_of_starter(portion.ingredient, bake, tongue);
  if (!portion.levain || !bake.levain) {
    add_flour(ripe, flour, line.flours);
    return;
  }
  const auto& hydration = bake.levain->starter[Property::hydration];
  const double old = bake.levain->ripe / (1 + (hydration ? hydration->typical : 1));
  const double fresh = bake.levain->fresh_flour;
  add_flour(name_of(bake.levain->flour, tongue), flour * fresh / (fresh + old), line.flours);
  add_flour(ripe, flour * old / (fresh + old), line.flours);
  line.holds.merge(allergens_told(bake.levain->flour, tongue));
}

ListLine sour_line(const Bake& bake,
                   const Portion& portion,
                   const Composition& c,
                   double mass,
                   const ListOptions& options) {
  ListLine line;
  line.starter = true;
  line.used = line.solids = mass;
  const LabelWord word = label_word("ripe_levain", options.tongue);
  line.name =
      portion.ingredient.on_label.name.empty() ? word.name : portion.ingredient.on_label.name;
  line.list = portion.ingredient.on_label.list;
  line.holds = allergens_told(portion.ingredient, options.tongue);
  line.sulphited = brings_sulphite(portion.ingredient, c, options.tongue);
  add_sour_flours(bake, portion, c, options.tongue, line);
  return line;
}

}  // namespace

ListLine list_line(const Bake& bake,
                   const Portion& portion,
                   const Composition& c,
                   double mass,
                   const ListOptions& options) {
  if (is_starter(portion)) return sour_line(bake, portion, c, mass, options);
  const Ingredient& ingredient = portion.ingredient;
  ListLine line;
  line.name = name_of(ingredient, options.tongue);
  add_list(bake, ingredient, c, options, line);
  // The baker's own list tells of allergens also where it is not printed, as of a strong drink.
  line.holds = allergens_told(ingredient, options.tongue);
  line.holds.merge(set_off_in(line.name + " " + line.list, options.tongue));
  line.sulphited = brings_sulphite(ingredient, c, options.tongue);
  line.used = mass;
  // Annex VII A 1 lets water be left out, not what else came with it.
  line.added_water = ingredient.group == Group::water && line.holds.empty();
  line.drink = ingredient.group == Group::drink;
  const std::string_view kind = label_word(key_of(ingredient), options.tongue).kind;
  line.additive = ingredient.group == Group::acid && kind != "plain";
  line.additive = line.additive || kind == "preservative";
  const auto calls = label_word(key_of(ingredient), options.tongue).calls;
  line.wine = line.drink && std::find(calls.begin(), calls.end(), "wine") != calls.end();
  const bool may_leave = ingredient.group == Group::water || line.drink;
  line.water = may_leave ? mass * c[Property::water] : 0;
  line.alcohol = may_leave ? mass * c[Property::ethanol] : 0;
  line.solids = mass - line.water - line.alcohol;
  return line;
}

}  // namespace barm::shop::internal

#include "formula/cautions.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "formula/internal/contents.h"
#include "generated/constants.h"
#include "larder/allergens.h"
#include "units/units.h"

namespace barm::formula {

using larder::Group;
using larder::Property;

namespace {

namespace limits = constants::caution;
using Lines = std::vector<std::string>;

bool holds(const Bake& bake, Group group) {
  return std::any_of(bake.bowl.begin(), bake.bowl.end(), [&](const Portion& portion) {
    return portion.ingredient.group == group;
  });
}

bool lives(const Portion& portion) {
  return internal::is_starter(portion) || portion.ingredient.group == Group::yeast;
}

bool any_lives(const Bake& bake) { return std::any_of(bake.bowl.begin(), bake.bowl.end(), lives); }

// --- unusual amounts ---

void salt_and_water(const Bowl& bowl, Lines& lines) {
  const double salt = bowl.salt / bowl.flour;
  const double water = bowl.real_hydration();
  if (salt > limits::salt_much.value.si()) {
    lines.push_back(fmt::format(
        "Salt is {:.1f} % of flour: rise slows and bread tastes salty; bakers use about 2 %.",
        100 * salt));
  }
  if (salt < 1e-4)
    lines.emplace_back(
        "No salt: dough ferments faster and is slack; bakers who leave it out shorten the bulk.");
  if (water < limits::hydration_low.value.si()) {
    lines.push_back(fmt::format(
        "Real water is {:.0f} % of flour: stiff to mix; bakers mix it slowly or add water.",
        100 * water));
  }
  if (water > limits::hydration_high.value.si()) {
    lines.push_back(
        fmt::format("Real water is {:.0f} % of flour: it flows; bakers bake such doughs in a tin.",
                    100 * water));
  }
}

// --- alcohol, gas, flour ---

void vapour(const Bowl& bowl, Lines& lines) {
  const double share = bowl.ethanol_of_dough().value();
  if (share <= limits::ethanol_vapour.value.si()) return;
  lines.push_back(
      fmt::format("Alcohol is {:.1f} % of the dough: vapour can catch fire; bakers vent oven and "
                  "room, no flames. The oven maker's rules hold.",
                  100 * share));
}

void alcohol_left(const Bowl& bowl, Lines& lines) {
  if (bowl.ethanol_of_dough().value() <= limits::ethanol_left.value.si()) return;
  lines.emplace_back(
      "Some alcohol stays in the loaf: bakers tell every guest, for some must avoid it. Your label "
      "law holds.");
}

void gas(const Bake& bake, Lines& lines) {
  if (!any_lives(bake)) return;
  lines.emplace_back("A closed jar of live dough can burst; bakers leave the lid loose.");
}

void raw_flour(Lines& lines) {
  lines.emplace_back(
      "Raw flour and dough can carry germs; bakers do not taste them raw. Your food authority's "
      "rules hold.");
}

// --- what has to be named ---

void sulphites(const Bake& bake, const Bowl& bowl, Lines& lines) {
  const double share = bowl.total_sulphite.si() / (bowl.dough.si() * (1 - bake.bake_loss));
  if (share < limits::sulphite_named.value.si()) return;
  lines.push_back(
      fmt::format("Sulphites: up to {:.0f} mg/kg of loaf if none leaves in the oven; an allergen "
                  "to name from 10 mg/kg. Your label law holds.",
                  1e6 * share));
}

// Those of its table and those that its own list, as the baker gave it, speaks of.
void add_allergens(const larder::Ingredient& ingredient, std::set<std::string>& names) {
  names.insert(ingredient.allergens.begin(), ingredient.allergens.end());
  const larder::OnLabel& label = ingredient.on_label;
  for (std::string& one : larder::allergens_named_in(label.name + ", " + label.list))
    names.insert(std::move(one));
}

void allergens(const Bake& bake, Lines& lines) {
  std::set<std::string> names;
  for (const Portion& portion : bake.bowl) {
    add_allergens(portion.ingredient, names);
    if (portion.levain && bake.levain) add_allergens(bake.levain->flour, names);
  }
  names.erase("sulphites");  // by their amount, above
  if (names.empty()) return;
  lines.push_back(
      fmt::format("Allergens: {}. Bakers name them to every guest; your label law holds.",
                  fmt::join(names, ", ")));
}

void kept_warm(const Bake& bake, Lines& lines) {
  const bool spoils = holds(bake, Group::dairy) || holds(bake, Group::egg);
  if (!spoils || bake.bulk_temperature() <= limits::warm.value) return;
  lines.push_back(
      fmt::format("Milk or egg stands at {:.0f} °C: germs can grow; bakers keep it short or cold. "
                  "Your food authority's rules hold.",
                  bake.bulk_temperature().celsius()));
}

// --- the order of mixing ---

bool is_harsh(const Portion& portion) {
  if (!portion.ingredient.is_liquid()) return false;
  const auto composition = larder::typical(portion.ingredient);
  if (!composition) return false;
  return (*composition)[Property::strength] > limits::harsh_strength.value.si() ||
         composition->ph() < limits::harsh_ph.value;
}

/// The harsh drink that a culture meets in a stage before any flour or water thins it.
const Portion* met_undiluted(const Bake& bake, const Stage& mix) {
  const Portion* harsh = nullptr;
  bool culture = false;
  for (const std::string& word : mix.order) {
    const auto at = bake.find(word);
    if (!at) continue;
    const Portion& portion = bake.bowl[*at];
    if (portion.ingredient.is_flour() || portion.ingredient.group == Group::water) return nullptr;
    culture = culture || lives(portion);
    if (is_harsh(portion)) harsh = &portion;
    if (culture && harsh != nullptr) return harsh;
  }
  return nullptr;
}

void order(const Bake& bake, Lines& lines) {
  for (const Stage& stage : bake.stages) {
    if (stage.step != Step::mix) continue;
    const Portion* harsh = met_undiluted(bake, stage);
    if (harsh == nullptr) continue;
    lines.push_back(
        fmt::format("The culture meets {:.40} undiluted and can be killed or stunned; bakers mix "
                    "flour and liquid first, the culture last.",
                    harsh->ingredient.name));
  }
}

// --- doubts ---

std::string in_words(Property property) {
  std::string words(larder::name(property));
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

std::optional<std::string> unknown_of(const larder::Ingredient& ingredient) {
  std::string list;
  for (const Property property : larder::assumed_properties(ingredient)) {
    // A dough does not feel its minerals; the label speaks of them.
    if (property == Property::calcium || property == Property::potassium) continue;
    list += (list.empty() ? "" : ", ") + in_words(property);
  }
  if (list.empty()) return std::nullopt;
  return fmt::format(
      "{}: {} not known; the usual range for its kind is assumed", ingredient.name, list);
}

}  // namespace

Lines cautions(const Bake& bake, const Bowl& bowl) {
  Lines lines;
  salt_and_water(bowl, lines);
  order(bake, lines);
  vapour(bowl, lines);
  alcohol_left(bowl, lines);
  gas(bake, lines);
  raw_flour(lines);
  sulphites(bake, bowl, lines);
  allergens(bake, lines);
  kept_warm(bake, lines);
  return lines;
}

Lines doubts(const Bake& bake) {
  Lines lines;
  for (const Portion& portion : bake.bowl) {
    if (const auto unknown = unknown_of(portion.ingredient)) lines.push_back(*unknown);
    // What is done to a prepared drink is no doubt.
    if (!portion.reading.empty() && portion.made_of.empty()) {
      lines.push_back(portion.ingredient.name + ": " + portion.reading);
    }
  }
  return lines;
}

}  // namespace barm::formula

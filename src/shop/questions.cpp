#include "shop/questions.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "generated/constants.h"
#include "generated/tables.h"
#include "larder/allergens.h"
#include "larder/larder.h"
#include "shop/internal/questions.h"
#include "shop/told.h"

namespace barm::shop {

using formula::Bake;
using formula::Portion;
using larder::Group;

using internal::asks;
using internal::holds_drink;
using internal::holds_word;
using internal::Lines;

namespace {

/// By the words that call such a drink, an own one also by its name: a mead is no wine, although it
/// is called honey wine too.
bool is_of_sort(const larder::Ingredient& drink, std::string_view sort) {
  const bool own = drink.on_label.own;
  const auto calls = label_word(own ? drink.on_label.like : drink.key, Tongue::en).calls;
  return std::find(calls.begin(), calls.end(), sort) != calls.end() ||
         (own && holds_word(drink.name, sort));
}

/// "egg white (eggs)" of every sort the drink is of, each once.
std::string agents_of(const larder::Ingredient& drink, bool exempt) {
  std::set<std::string> found;
  for (const auto& row : tables::fining) {
    if ((row.exempt == "yes") == exempt && is_of_sort(drink, row.drink)) {
      found.insert(fmt::format("{} ({})", row.agent, row.allergen));
    }
  }
  std::string out;
  for (const std::string& agent : found) out += (out.empty() ? "" : ", ") + agent;
  return out;
}

std::vector<std::string> allergen_rules(Law law) {
  if (law == Law::us) return {"us_allergens"};
  return {"allergen_list", "allergen_emphasis"};
}

std::string words_of(const std::set<std::string>& allergens, Law law) {
  std::string out;
  for (const std::string& one : allergens) {
    const larder::Allergen* known = larder::find_allergen(one);
    if (law == Law::us && known != nullptr && known->us.empty()) continue;
    out += (out.empty() ? "" : ", ") + one;
  }
  return out;
}

std::set<std::string> without(std::set<std::string> some, const std::set<std::string>& others) {
  std::erase_if(some, [&](const std::string& one) { return others.contains(one); });
  return some;
}

/// What the larder's ingredient holds that this one is like.
std::set<std::string> of_its_like(const larder::Ingredient& own) {
  const larder::Ingredient* like = larder::find(own.on_label.like);
  if (like == nullptr) return {};
  return {like->allergens.begin(), like->allergens.end()};
}

/// An allergen that is not said is one that is not set off.
void allergens_of_own(const Bake& bake, const Label& label, Lines& lines) {
  const auto ask = [&](std::string text) {
    lines.push_back(asks("allergens", std::move(text), allergen_rules(label.law)));
  };
  for (const larder::Ingredient* one : stated(bake)) {
    if (!one->on_label.own) continue;
    if (allergens_are_asked(*one)) {
      ask(
          fmt::format("Which allergens does {} hold? Write allergens = [\"milk\"] in its table, or "
                      "allergens = [] when it holds none.",
                      one->name));
    }
    const std::set<std::string> told = allergens_told(*one, label.tongue);
    const std::string sounds =
        words_of(without(spoken_of_in(one->name + ", " + one->on_label.name, label.tongue), told),
                 label.law);
    if (!sounds.empty()) {
      ask(fmt::format(
          "{} sounds of {}: does it hold it? Its table does not say so.", one->name, sounds));
    }
    const std::string lost = words_of(without(of_its_like(*one), told), label.law);
    if (!lost.empty()) {
      ask(
          fmt::format("{} is like {}, which holds {}, and its own allergens leave that out: is it "
                      "free of it?",
                      one->name,
                      larder::find(one->on_label.like)->name,
                      lost));
    }
  }
}

void allergens_of_the_name(const Bake& bake, const Label& label, Lines& lines) {
  const auto sounds = without(spoken_of_in(bake.name, label.tongue),
                              {label.allergens.begin(), label.allergens.end()});
  for (const std::string& one : sounds) {
    const larder::Allergen* known = larder::find_allergen(one);
    if (label.law == Law::us && (known == nullptr || known->us.empty())) continue;
    if (one == "sulphites") continue;
    lines.push_back(asks("allergens",
                         fmt::format("The bread's name speaks of {}, and nothing in the bowl is "
                                     "said to hold it.",
                                     one),
                         allergen_rules(label.law)));
  }
}

/// What is put on a loaf stands in no bowl.
void put_on_the_loaf(Law law, Lines& lines) {
  lines.push_back(asks("on the loaf",
                       "Does anything come on the loaf that is not in the bowl, such as an egg "
                       "wash, seeds, flour for dusting, butter in the tin? It belongs in the list: "
                       "write it into the bowl by its weight.",
                       allergen_rules(law)));
}

/// What a mill adds is no part of the name "flour".
void flour_of_the_mill(const Bake& bake, Law law, Lines& lines) {
  const auto all = stated(bake);
  const bool asked = std::any_of(all.begin(), all.end(), [](const larder::Ingredient* one) {
    return one->is_flour() && one->on_label.list.empty();
  });
  if (!asked) return;
  lines.push_back(asks("flour",
                       "Does the mill add anything to the flour, such as malt flour (barley), "
                       "gluten (wheat) or ascorbic acid? Its sack says so: then write an "
                       "[ingredient] that is like the flour, with list and allergens.",
                       {law == Law::us ? "us_compound" : "compound"}));
}

/// A compound of the baker's own whose own list nobody has given.
void compounds(const Bake& bake, Law law, Lines& lines) {
  for (const Portion& portion : bake.bowl) {
    const larder::Ingredient& one = portion.ingredient;
    const bool may_be_one = one.group == Group::other || one.group == Group::fruit ||
                            one.group == Group::fat || one.group == Group::seed ||
                            (one.group == Group::drink && law == Law::us);
    const bool weak = one.group == Group::drink && one[larder::Property::strength] &&
                      one[larder::Property::strength]->typical <= 0.012;
    const bool known =
        !one.on_label.list.empty() || !label_word(one.on_label.like, Tongue::en).of.empty();
    if (!one.on_label.own || known || !(may_be_one || weak)) continue;
    lines.push_back(asks("its own list",
                         fmt::format("Is {} made of several things? Then its list stands behind "
                                     "its name: write list = \"…\" in its table.",
                                     one.name),
                         {law == Law::us ? "us_compound" : "compound"}));
  }
}

void wine(const Bake& bake, Law law, Lines& lines) {
  for (const Portion& portion : bake.bowl) {
    const std::string& like = portion.ingredient.on_label.like;
    const auto calls = label_word(like.empty() ? portion.ingredient.key : like, Tongue::en).calls;
    const bool is_wine = std::find(calls.begin(), calls.end(), "wine") != calls.end();
    if (law != Law::eu || portion.ingredient.group != Group::drink || !is_wine) continue;
    lines.push_back(asks("wine",
                         fmt::format("{}: from the vintage of 2024 its bottle has a list of "
                                     "ingredients. Does your authority want it repeated here?",
                                     portion.ingredient.name),
                         {"compound_wine", "compound_drink"}));
  }
}

/// An oatmeal stout, a cream liqueur, lemon juice from a bottle: the larder knows the plain one.
void held_beside(const Bake& bake, Law law, Lines& lines) {
  for (const larder::Ingredient* one : stated(bake)) {
    const std::string& key = one->on_label.own ? one->on_label.like : one->key;
    for (const auto& row : tables::may_hold) {
      if (one->on_label.allergens_said || (key != row.what && !is_of_sort(*one, row.what)))
        continue;
      lines.push_back(asks("allergens",
                           fmt::format("Does the {} hold {}? Its pack or its maker says so: then "
                                       "write an [ingredient] that is like it, with allergens.",
                                       one->name,
                                       row.allergens),
                           allergen_rules(law)));
    }
  }
}

void fining(const Bake& bake, Law law, Lines& lines) {
  for (const Portion& portion : bake.bowl) {
    if (portion.ingredient.group != Group::drink) continue;
    std::string agents = agents_of(portion.ingredient, false);
    const std::string exempt = agents_of(portion.ingredient, true);
    if (law == Law::us && !exempt.empty()) agents += (agents.empty() ? "" : ", ") + exempt;
    if (agents.empty()) continue;
    const bool say_exempt = law != Law::us && !exempt.empty();
    std::vector<std::string> rules{law == Law::us ? "us_allergens" : "allergen_fining"};
    if (law != Law::us && agents.find("lysozyme") != std::string::npos)
      rules.emplace_back("lysozyme");
    lines.push_back(asks("fining",
                         fmt::format("Was the {} fined or kept with {}? Ask its maker{}.",
                                     portion.ingredient.name,
                                     agents,
                                     say_exempt ? "; " + exempt + " is exempt" : ""),
                         std::move(rules)));
  }
}

void alcohol_left(const Ranged& alcohol, Law law, Lines& lines) {
  if (alcohol.high < constants::left_in_loaf::alcohol_named.value.si() * 100) return;
  lines.push_back(asks(
      "alcohol",
      fmt::format("About {:.1f} g of alcohol stay in 100 g of the loaf, {:.1f} to {:.1f} in 4 "
                  "of 5 loaves (twelve measured in 1926: {:g} to {:g}): tell those who must avoid "
                  "it, and ask what your law requires.",
                  alcohol.middle,
                  alcohol.low,
                  alcohol.high,
                  100 * constants::left_in_loaf::measured_low.value.si(),
                  100 * constants::left_in_loaf::measured_high.value.si()),
      {law == Law::us ? "us_alcohol" : "residual_alcohol"}));
}

void protected_names(const Bake& bake, Law law, Lines& lines) {
  std::set<std::string> found;
  const auto look_in = [&](std::string_view text) {
    for (const auto& row : tables::protected_names) {
      if (holds_word(text, row.word)) found.emplace(row.word);
    }
  };
  look_in(bake.name);
  for (const Portion& portion : bake.bowl) look_in(portion.ingredient.name);
  for (const std::string& word : found) {
    lines.push_back(
        asks("protected name",
             fmt::format("\"{}\" may be a protected name: may it stand on this bread?", word),
             {law == Law::us ? "us_protected" : "protected"}));
  }
}

}  // namespace

std::vector<LabelLine> questions(const Bake& bake, const Label& label) {
  const Law law = label.law;
  Lines lines;
  allergens_of_own(bake, label, lines);
  allergens_of_the_name(bake, label, lines);
  held_beside(bake, law, lines);
  fining(bake, law, lines);
  alcohol_left(label.alcohol, law, lines);
  flour_of_the_mill(bake, law, lines);
  put_on_the_loaf(law, lines);
  compounds(bake, law, lines);
  wine(bake, law, lines);
  protected_names(bake, law, lines);
  if (holds_drink(bake)) {
    lines.push_back(
        asks("age and duty",
             "Does baking with or selling what holds alcohol need a licence, a duty or an "
             "age where you are?",
             {law == Law::us ? "us_alcohol" : "alcohol_duty"}));
  }
  if (law == Law::us) {
    internal::of_america(bake, lines);
    return lines;
  }
  if (label.tongue != Tongue::en) {
    lines.push_back(asks("language",
                         "Are the names and terms those of the country of sale, and does the "
                         "bread's name speak of an ingredient whose quantity is not said?",
                         {"language", "quid"}));
  }
  lines.push_back(asks("small seller", "Do you sell small amounts yourself?", {"small_seller"}));
  lines.push_back(asks("loose", "Is it sold unwrapped?", {"loose"}));
  if (law == Law::uk) internal::of_the_kingdom(bake, label, lines);
  return lines;
}

}  // namespace barm::shop

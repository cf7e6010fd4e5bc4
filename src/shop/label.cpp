#include "shop/label.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "generated/constants.h"
#include "larder/larder.h"
#include "shop/internal/say.h"
#include "shop/questions.h"
#include "shop/rounding.h"

namespace barm::shop {

using formula::Bake;

namespace {

constexpr double mg_in_kilogram = 1e6;
constexpr const char* draft_words =
    "A draft, reckoned from the recipe, for the person who answers for the food to check against "
    "local "
    "law before it is used. It is not legal advice.";

Nutrients nutrients_of(const Bake& bake, const LoafDraw& draw, Law law) {
  return nutrients(bake, draw.settled, draw.bowl, draw.fermented, draw.baked, law == Law::us);
}

// --- the lines ---

LabelLine line(std::string field, LabelText text, std::vector<std::string> rules) {
  LabelLine out;
  out.field = std::move(field);
  out.text = std::move(text);
  out.rules = std::move(rules);
  return out;
}

LabelLine ingredients_line(const Bake& bake, const IngredientList& list, Law law) {
  LabelLine out = line("ingredients", list.text, {});
  const auto add_rule = [&](const std::string& rule) {
    if (std::find(out.rules.begin(), out.rules.end(), rule) == out.rules.end())
      out.rules.push_back(rule);
  };
  for (const Listed& item : list.items) {
    for (const std::string& rule : item.rules) add_rule(rule);
    if (item.under_two_percent) add_rule(law == Law::us ? "us_two_percent" : "two_percent");
    if (item.may_be_left_out) {
      out.unknown.push_back(plain(item.name) + " is at most 5 % of the loaf and may be left out");
    }
  }
  if (law != Law::us) {
    add_rule("names");
    add_rule("allergen_emphasis");
  }
  if (list.order_depends) {
    out.unknown.push_back("by the weights in the bowl alone the order would be: " +
                          list.by_the_bowl);
  }
  for (const formula::Portion& portion : bake.bowl) {
    if (larder::find(portion.ingredient.name) == nullptr) {
      out.unknown.push_back(
          fmt::format("\"{}\" is your own: give it the name of its kind", portion.ingredient.name));
    }
  }
  return out;
}

void quantity_lines(const IngredientList& list, std::vector<LabelLine>& lines) {
  for (const Listed& item : list.items) {
    if (item.quantity_said.empty()) continue;
    const std::string name = plain(item.name);
    LabelLine out = line("quantity",
                         {{name.substr(0, name.find(" (")) + " " + item.quantity_said, false}},
                         {"quid", "quid_moisture"});
    if (item.drink) {
      out.rules.emplace_back("quid_volatile");
      out.unknown.push_back(fmt::format(
          "counted as a volatile ingredient it would be {} %: what is left of it in the loaf",
          quantity_percent(100 * item.quantity_left)));
    }
    lines.push_back(std::move(out));
  }
}

/// The name US law has for an allergen.
std::string us_name(const std::string& allergen) {
  if (allergen == "soya") return "Soy";
  std::string out = allergen == "eggs" ? "egg" : allergen;
  out[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(out[0])));
  return out;
}

/// In the United States a line of its own. Elsewhere allergens are set off in the list, and a
/// second list beside it is not wanted; only where there is no list they stand behind "contains".
LabelLine allergens_line(const Label& label) {
  const bool us = label.law == Law::us;
  std::vector<std::string> names;
  for (const std::string& allergen : label.allergens) {
    names.push_back(us ? us_name(allergen) : allergen);
  }
  if (label.sulphites == Sulphites::yes && !us) names.emplace_back("sulphites");
  std::string text = "No allergen of the law's list is among the ingredients.";
  if (!names.empty() && us) text = "Contains: " + internal::joined(names) + ".";
  if (!names.empty() && !us) {
    text = "Set off in the list: " + internal::joined(names) + ". Without a list: \"Contains " +
           internal::joined(names) + ".\"";
  }
  LabelLine out = line("allergens", {{text, false}}, {us ? "us_allergens" : "allergen_emphasis"});
  out.unknown.emplace_back("traces from bench, mill and oven: only you know them");
  return out;
}

std::string milligrams(double value) {
  return value >= 9.95 ? fmt::format("{:.0f}", value) : fmt::format("{:.1f}", value);
}

LabelLine sulphites_line(const Bake& bake, const Label& label) {
  const bool us = label.law == Law::us;
  const std::string word = us ? "sulfites" : "sulphites";
  const std::string most =
      fmt::format("up to {} mg/kg with a usual bottle, up to {} with all but 1 in 20",
                  milligrams(label.sulphite.middle),
                  milligrams(label.sulphite.high));
  std::string text = "No " + word + " to name: " + most + "; the bound is 10.";
  if (label.sulphites == Sulphites::yes) text = "Name " + word + ": " + most + "; the bound is 10.";
  if (label.sulphites == Sulphites::perhaps) {
    text = "Perhaps " + word + ": " + most + "; the bound is 10. Ask the maker, or name them.";
  }
  LabelLine out = line("sulphites", {{text, false}}, {us ? "us_sulphites" : "sulphites"});
  for (const formula::Portion& portion : bake.bowl) {
    const auto assumed = larder::assumed_properties(portion.ingredient);
    const bool of_sulphite =
        std::find(assumed.begin(), assumed.end(), larder::Property::total_sulphite) !=
        assumed.end();
    if (!of_sulphite) continue;
    out.unknown.push_back(fmt::format(
        "total sulphite of {}: the range of such drinks is assumed; the bottle's own figure in "
        "[bottle], total_sulphite = \"90 mg/L\", would settle it",
        portion.ingredient.name));
  }
  out.unknown.emplace_back(
      "how much of it leaves in dough and oven is not known: this is all that was brought, an "
      "upper "
      "bound; a laboratory can measure the loaf");
  return out;
}

/// The ingredients of a bake, its levain by its flour.
std::vector<const larder::Ingredient*> eaten(const Bake& bake) {
  std::vector<const larder::Ingredient*> all;
  for (const formula::Portion& portion : bake.bowl) all.push_back(&composed_of(bake, portion));
  return all;
}

/// Neither known nor assumed for its group.
bool leaves_unknown(const larder::Ingredient& ingredient, larder::Property mineral) {
  return !ingredient[mineral] && !larder::assumed(ingredient, mineral);
}

KnownInAmerica known_in_america(const Bake& bake) {
  const auto all = eaten(bake);
  const auto known = [&](larder::Property mineral) {
    return std::none_of(all.begin(), all.end(), [&](const larder::Ingredient* one) {
      return leaves_unknown(*one, mineral);
    });
  };
  return {std::all_of(all.begin(),
                      all.end(),
                      [](const larder::Ingredient* one) { return holds_no_cholesterol(*one); }),
          known(larder::Property::calcium),
          known(larder::Property::potassium)};
}

/// What the Nutrition Facts want and this cannot say, or says by assumption.
void not_reckoned(const Bake& bake, std::vector<std::string>& unknown) {
  const bool no_cholesterol = known_in_america(bake).no_cholesterol;
  unknown.push_back(
      fmt::format("trans fat, {}vitamin D and iron are required; the tables here do not hold them",
                  no_cholesterol ? "" : "cholesterol, "));
  for (const larder::Property mineral : {larder::Property::calcium, larder::Property::potassium}) {
    std::set<std::string> said;
    for (const larder::Ingredient* one : eaten(bake)) {
      if ((*one)[mineral] || !said.insert(one->name).second) continue;
      unknown.push_back(fmt::format("{} of {}{}",
                                    larder::name(mineral),
                                    one->name,
                                    leaves_unknown(*one, mineral)
                                        ? ": so the loaf's is not known"
                                        : ": the range of such things is assumed"));
    }
  }
}

LabelLine nutrition_line(const Bake& bake, Law law) {
  LabelLine out =
      law == Law::us
          ? line("nutrition", {}, {"us_nutrition", "us_rounding", "us_energy", "us_serving"})
          : line("nutrition",
                 {},
                 {"nutrition", "energy_factors", "rounding", "calculated", "protein", "salt"});
  out.unknown.emplace_back(
      "alcohol kept in the oven is taken from dishes in pans, not from bread; its range is in the "
      "energy's");
  out.unknown.emplace_back(
      "sugars are what the dough leaves at the end of its bulk: what proof and oven change is not "
      "counted");
  if (law == Law::us) {
    out.rules.emplace_back("us_daily_value");
    not_reckoned(bake, out.unknown);
  }
  for (const formula::Portion& portion : bake.bowl) {
    if (knows_saturates(portion.ingredient)) continue;
    out.unknown.push_back(
        fmt::format("saturates of {}: taken as a fifth of its fat", portion.ingredient.name));
  }
  return out;
}

/// "Net Wt 27.9 oz (792 g)", from a pound on "Net Wt 1 lb 11.9 oz (792 g)".
std::string us_weight(Mass mass) {
  constexpr double tenths = 10;
  const Mass rounded = std::round(tenths * (mass / ounce)) / tenths * ounce;
  const double pounds = std::floor(rounded / pound + 1e-9);
  const double ounces = std::abs((rounded - pounds * pound) / ounce);
  std::string said = pounds > 0 ? fmt::format("{:.0f} lb ", pounds) : "";
  if (pounds == 0 || ounces >= 1 / (2 * tenths)) said += fmt::format("{:.1f} oz ", ounces);
  return fmt::format("Net Wt {}({})", said, internal::grams(mass));
}

LabelLine weight_line(const Label& label) {
  const bool known = label.loaf.si() > 0;
  LabelLine out = line("weight",
                       {{known ? weight_words(label) : "still to be weighed", false}},
                       {label.law == Law::us ? "us_weight" : "date_and_maker"});
  out.unknown.emplace_back(known ? "weigh what you sell: this is reckoned from the bake loss"
                                 : "the bake does not say how many loaves it makes");
  return out;
}

Sulphites verdict(const Ranged& bound, Law law) {
  const double limit = constants::caution::sulphite_named.value.si() * mg_in_kilogram;
  // "above 10 mg/kg" in the European Union, "10 ppm or more" in the United States.
  const auto reached = [&](double value) {
    return law == Law::us ? value >= limit : value > limit;
  };
  if (reached(bound.middle)) return Sulphites::yes;
  return reached(bound.high) ? Sulphites::perhaps : Sulphites::no;
}

}  // namespace

std::string weight_words(const Label& label) {
  return label.law == Law::us ? us_weight(label.loaf) : internal::grams(label.loaf);
}

double sulphite_bound(const Nutrients& nutrients) {
  return mg_in_kilogram * nutrients[Nutrient::sulphite] / nutrients.mass;
}

Label label(const Bake& bake,
            const LoafDraw& book,
            const std::vector<LoafDraw>& draws,
            const LabelOptions& options) {
  const bool us = options.law == Law::us;
  Loaves loaves{nutrients_of(bake, book, options.law), {}};
  for (const LoafDraw& draw : draws) loaves.draws.push_back(nutrients_of(bake, draw, options.law));
  Label out;
  out.law = options.law;
  out.name = bake.name.empty() ? "bread" : bake.name;
  if (book.bowl.pieces > 0) out.loaf = Mass::from_si(loaves.book.mass / book.bowl.pieces);
  out.portion =
      options.portion.si() > 0 ? options.portion : Mass(constants::serving::us_bread.value);
  out.sulphite = loaves.of(sulphite_bound, 0.05, 0.95);
  out.sulphites = verdict(out.sulphite, options.law);
  out.alcohol = loaves.of([](const Nutrients& n) { return n.in_100_g(Nutrient::alcohol); });
  out.allergens = allergens_of(bake, options.law);
  out.ingredients = ingredient_list(bake,
                                    book.settled,
                                    book.bowl,
                                    book.baked.alcohol_kept,
                                    out.sulphites == Sulphites::yes,
                                    options.law);
  const double portion = out.portion.in(gram);
  out.nutrition =
      us ? us_table(loaves, portion, known_in_america(bake)) : eu_table(loaves, portion);
  out.lines.push_back(line("name", {{out.name, false}}, {us ? "us_standard" : "date_and_maker"}));
  out.lines.push_back(weight_line(out));
  out.lines.push_back(ingredients_line(bake, out.ingredients, options.law));
  if (!us) quantity_lines(out.ingredients, out.lines);
  out.lines.push_back(allergens_line(out));
  out.lines.push_back(sulphites_line(bake, out));
  out.lines.push_back(nutrition_line(bake, options.law));
  out.questions = questions(bake, out.alcohol, options.law);
  out.draft = draft_words;
  return out;
}

}  // namespace barm::shop

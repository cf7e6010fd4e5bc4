#include "shop/internal/label_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "generated/constants.h"
#include "larder/larder.h"
#include "shop/internal/say.h"
#include "shop/rounding.h"
#include "shop/told.h"

namespace barm::shop::internal {

using formula::Bake;

namespace {

/// Neither known nor assumed for its group.
bool leaves_unknown(const larder::Ingredient& ingredient, larder::Property mineral) {
  return !ingredient[mineral] && !larder::assumed(ingredient, mineral);
}

/// Minerals that the Nutrition Facts want and that are not known, or assumed.
void not_worked_out(const Bake& bake, std::vector<std::string>& unknown) {
  for (const larder::Property mineral : {larder::Property::calcium, larder::Property::potassium}) {
    std::set<std::string> said;
    for (const larder::Ingredient* one : eaten(bake)) {
      if ((*one)[mineral] || !said.insert(one->name).second) continue;
      unknown.push_back(fmt::format("{} of {}{}",
                                    larder::name(mineral),
                                    one->name,
                                    leaves_unknown(*one, mineral)
                                        ? ": so the loaf's is not known"
                                        : ": the usual range for its kind is assumed"));
    }
  }
}

/// What the list rests on beside the recipe.
void say_doubts_of_list(const Bake& bake, const Label& label, std::vector<std::string>& unknown) {
  for (const Listed& item : label.ingredients.items) {
    const std::string name = plain(item.name);
    if (item.left_out) {
      unknown.push_back(name +
                        ": the loaf weighs no more than the others as used, so it may be left out");
    } else if (item.may_be_left_out) {
      unknown.push_back(name + " is at most 5 % of the loaf and may be left out");
    }
    if (item.usual_list)
      unknown.push_back(name + ": the usual list of such a thing; the maker's own goes before it");
  }
  if (label.ingredients.order_depends) {
    unknown.push_back("by what is left of the drinks in the loaf the order would be: " +
                      label.ingredients.by_what_is_left);
  }
  for (const larder::Ingredient* one : stated(bake)) {
    if (!one->on_label.own || !one->on_label.name.empty()) continue;
    unknown.push_back(fmt::format(
        "\"{}\" is your own: give it the name of its kind, label_name = \"…\" in its table",
        one->name));
  }
}

std::string milligrams(double value) {
  return value >= 9.95 ? fmt::format("{:.0f}", value) : fmt::format("{:.1f}", value);
}

/// "Net Wt 27.9 oz (792 g)", from a pound on "Net Wt 1 lb 11.9 oz (792 g)".
std::string us_weight(Mass mass) {
  constexpr double tenths = 10;
  const Mass rounded = std::round(tenths * (mass / ounce)) / tenths * ounce;
  const double pounds = std::floor(rounded / pound + 1e-9);
  const double ounces = std::abs((rounded - pounds * pound) / ounce);
  std::string said = pounds > 0 ? fmt::format("{:.0f} lb ", pounds) : "";
  if (pounds == 0 || ounces >= 1 / (2 * tenths)) said += fmt::format("{:.1f} oz ", ounces);
  return fmt::format("Net Wt {}({})", said, grams(mass));
}

}  // namespace

LabelLine label_line(std::string field, LabelText text, std::vector<std::string> rules) {
  LabelLine out;
  out.field = std::move(field);
  out.text = std::move(text);
  out.rules = std::move(rules);
  return out;
}

std::vector<const larder::Ingredient*> eaten(const Bake& bake) {
  std::vector<const larder::Ingredient*> all;
  for (const formula::Portion& portion : bake.bowl) all.push_back(&composed_of(bake, portion));
  return all;
}

KnownInAmerica known_in_america(const Bake& bake, const formula::LabelFields& fields) {
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
          known(larder::Property::potassium),
          fields};
}

LabelLine ingredients_line(const Bake& bake, const Label& label) {
  const bool us = label.law == Law::us;
  LabelLine out = label_line("ingredients", label.ingredients.text, {});
  const auto add_rule = [&](const std::string& rule) {
    if (std::find(out.rules.begin(), out.rules.end(), rule) == out.rules.end())
      out.rules.push_back(rule);
  };
  for (const Listed& item : label.ingredients.items) {
    for (const std::string& rule : item.rules) add_rule(rule);
    if (item.under_two_percent) add_rule(us ? "us_two_percent" : "two_percent");
  }
  if (!us) {
    add_rule("names");
    add_rule("allergen_emphasis");
  }
  if (label.tongue != Tongue::en && !us) add_rule("language");
  say_doubts_of_list(bake, label, out.unknown);
  return out;
}

void add_quantity_lines(const Label& label, std::vector<LabelLine>& lines) {
  for (const Listed& item : label.ingredients.items) {
    if (item.quantity_said.empty()) continue;
    const std::string name = plain(item.name);
    LabelLine out =
        label_line("quantity",
                   {{name.substr(0, name.find(" (")) + " " + item.quantity_said, false}},
                   {"quid", "quid_ways", "quid_moisture"});
    if (item.drink) {
      out.rules.emplace_back("quid_volatile");
      out.unknown.push_back(fmt::format(
          "counted as a volatile ingredient it would be {} %: what is left of it in the loaf",
          quantity_percent(100 * item.quantity_left)));
    }
    lines.push_back(std::move(out));
  }
}

/// In the United States a line of its own. Elsewhere allergens are set off in the list, and a
/// second list beside it is not wanted; only where there is no list they stand behind "contains".
LabelLine allergens_line(const Label& label) {
  const bool us = label.law == Law::us;
  std::vector<std::string> names;
  for (const std::string& allergen : label.allergens)
    names.push_back(allergen_word(allergen, label.tongue));
  if (label.sulphites != Sulphites::no && !us)
    names.push_back(allergen_word("sulphites", label.tongue));
  std::string text = "No allergen of the law's list is among the ingredients.";
  if (!names.empty() && us) text = "Contains: " + joined(names) + ".";
  if (!names.empty() && !us) {
    const std::string contains = term("contains", label.tongue);
    text = "Set off in the list: " + joined(names) + ". Without a list: \"" + contains + " " +
           joined(names) + ".\"";
  }
  if (!label.not_said.empty()) {
    const std::string gap = "Not known yet: the allergens of " + label.not_said + ".";
    text = names.empty() ? gap : gap + " " + text;
  }
  LabelLine out = label_line("allergens", {{text, false}}, {});
  out.rules = us ? std::vector<std::string>{"us_allergens"}
                 : std::vector<std::string>{"allergen_emphasis", "allergen_list"};
  out.unknown.emplace_back("traces from bench, mill and oven: only you know them");
  return out;
}

LabelLine sulphites_line(const Bake& bake, const Label& label) {
  const bool us = label.law == Law::us;
  const std::string word = us ? "sulfites" : "sulphites";
  const std::string most =
      fmt::format("up to {} mg/kg with a usual bottle, up to {} in 19 bottles of 20",
                  milligrams(label.sulphite.middle),
                  milligrams(label.sulphite.high));
  std::string text = "No " + word + " to name: " + most + "; the bound is 10.";
  if (label.sulphites == Sulphites::yes) text = "Name " + word + ": " + most + "; the bound is 10.";
  if (label.sulphites == Sulphites::perhaps) {
    text = "Perhaps " + word + ", so they are named: " + most +
           "; the bound is 10. The maker's own figure would settle it.";
  }
  LabelLine out = label_line("sulphites", {{text, false}}, {us ? "us_sulphites" : "sulphites"});
  for (const formula::Portion& portion : bake.bowl) {
    const auto assumed = larder::assumed_properties(portion.ingredient);
    const bool of_sulphite =
        std::find(assumed.begin(), assumed.end(), larder::Property::total_sulphite) !=
        assumed.end();
    if (!of_sulphite) continue;
    out.unknown.push_back(
        fmt::format("total sulphite of {}: the usual range for its kind is assumed; its own figure "
                    "in [bottle], "
                    "total_sulphite = \"90 mg/L\", would settle it",
                    portion.ingredient.name));
  }
  for (const larder::Ingredient* one : stated(bake)) {
    if (!sulphite_is_asked(*one, label.tongue)) continue;
    out.unknown.push_back(
        fmt::format("how much of it {} holds is not said, so it is named; total_sulphite = \"90 "
                    "mg/kg\" in its table would settle it",
                    one->name));
  }
  out.unknown.emplace_back(
      "how much of it leaves in dough and oven is not known: this is all that was brought, an "
      "upper bound; a laboratory can measure the loaf");
  return out;
}

LabelLine nutrition_line(const Bake& bake, const Label& label) {
  LabelLine out = label_line("nutrition", {}, {});
  out.unknown.emplace_back(
      bake.oven
          ? "alcohol kept is worked out for this loaf in its oven, not measured; its range is in "
            "the energy's"
          : "alcohol kept in the oven is taken from dishes in pans, not from bread; its range "
            "is in the energy's");
  out.unknown.emplace_back(
      "sugars are what the dough leaves when it goes into the oven: what the oven changes is not "
      "counted");
  if (label.law == Law::us) {
    out.rules = {"us_nutrition",
                 "us_rounding",
                 "us_energy",
                 "us_serving",
                 "us_household",
                 "us_added_sugars",
                 "us_daily_value",
                 "us_footnote"};
    if (label.serving.whole_too) out.rules.emplace_back("us_dual");
    not_worked_out(bake, out.unknown);
  } else {
    out.rules = {"nutrition", "energy_factors", "rounding", "calculated", "protein", "salt"};
    if (label.portion.si() > 0) out.rules.emplace_back("portions");
  }
  for (const formula::Portion& portion : bake.bowl) {
    if (knows_saturates(portion.ingredient)) continue;
    out.unknown.push_back(
        fmt::format("saturates of {}: taken as a fifth of its fat", portion.ingredient.name));
  }
  return out;
}

LabelLine weight_line(const Label& label) {
  const bool known = label.loaf.si() > 0;
  std::string rule = label.law == Law::us ? "us_weight" : "net_weight";
  if (label.law == Law::uk) rule = "uk_net_weight";
  LabelLine out =
      label_line("weight", {{known ? weight_words(label) : "still to be weighed", false}}, {rule});
  out.unknown.emplace_back(known ? "weigh what you sell: this is worked out from the bake loss"
                                 : "the bake does not say how many loaves it makes");
  return out;
}

}  // namespace barm::shop::internal

namespace barm::shop {

std::string weight_words(const Label& label) {
  return label.law == Law::us ? internal::us_weight(label.loaf) : internal::grams(label.loaf);
}

}  // namespace barm::shop

#include "shop/ingredient_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "larder/allergens.h"
#include "shop/internal/list_line.h"
#include "shop/internal/starter.h"
#include "shop/named.h"
#include "shop/rounding.h"
#include "units/units.h"

namespace barm::shop {

using formula::Bake;
using internal::ListLine;
using internal::SourFlour;
using larder::Composition;

namespace {

constexpr double two_percent = 0.02;
constexpr double five_percent = 0.05;

// --- what the bread's name speaks of ---

/// What of the bowl each line came from; of a sourdough its flours.
void name_lines(const Bake& bake,
                const std::vector<formula::Portion>& portions,
                Tongue tongue,
                std::vector<ListLine>& lines) {
  std::vector<larder::Ingredient> asked;
  for (const formula::Portion& one : portions) {
    const bool fed = one.levain && bake.levain;
    asked.push_back(fed ? bake.levain->flour : one.ingredient);
  }
  const auto named = named_in(bake.name, asked, tongue);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (!lines[i].starter) lines[i].named = named[i];
    if (lines[i].starter && !lines[i].flours.empty()) lines[i].flours.front().named = named[i];
  }
}

/// A flour that the name speaks of is counted whole: what the sourdough holds of it too.
void gather_flours(std::vector<ListLine>& lines, std::vector<double>& quantity) {
  for (ListLine& sour : lines) {
    for (SourFlour& flour : sour.flours) {
      for (std::size_t i = 0; i < lines.size(); ++i) {
        if (lines[i].starter || lines[i].name != flour.name) continue;
        lines[i].named = lines[i].named || flour.named;
        if (lines[i].named) quantity[i] += flour.mass;
        flour.named = false;
      }
    }
  }
}

// --- lines ---

/// Lines of one legal name are one ingredient.
std::vector<ListLine> merged(const std::vector<ListLine>& lines) {
  std::vector<ListLine> out;
  for (const ListLine& line : lines) {
    const auto same = std::find_if(out.begin(), out.end(), [&](const ListLine& one) {
      return one.name == line.name && one.list == line.list && !line.starter &&
             one.added_water == line.added_water;
    });
    if (same == out.end()) {
      out.push_back(line);
      continue;
    }
    same->used += line.used;
    same->solids += line.solids;
    same->water += line.water;
    same->alcohol += line.alcohol;
    same->holds.insert(line.holds.begin(), line.holds.end());
    same->sulphited = same->sulphited || line.sulphited;
    same->named = same->named || line.named;
  }
  return out;
}

/// Annex VII A 1: added water is what the finished food weighs less the others as used.
void count_water(double finished, Law law, std::vector<ListLine>& lines) {
  double others = 0;
  double water = 0;
  for (ListLine& line : lines) {
    line.counted = line.used;
    (line.added_water ? water : others) += line.used;
  }
  if (law == Law::us || water <= 0) return;
  const double share = std::clamp((finished - others) / water, 0.0, 1.0);
  for (ListLine& line : lines) {
    if (line.added_water) line.counted = share * line.used;
  }
}

/// Share of all the water in drinks and added water that is left, all of it left alike.
double water_left(const std::vector<ListLine>& lines, double finished, double alcohol_kept) {
  double rest = finished;
  double water = 0;
  for (const ListLine& line : lines) {
    rest -= line.solids + alcohol_kept * line.alcohol;
    water += line.water;
  }
  return water > 0 ? std::clamp(rest / water, 0.0, 1.0) : 0;
}

std::vector<std::string> rules_of(const ListLine& line, Law law) {
  const bool us = law == Law::us;
  std::vector<std::string> rules;
  if (us) {
    rules.emplace_back("us_order");
  } else {
    rules.emplace_back(line.added_water ? "water_and_volatiles" : "ingredient_order");
  }
  if (line.starter || !line.list.empty()) rules.emplace_back(us ? "us_compound" : "compound");
  if (!us && line.drink && line.list.empty()) rules.emplace_back("compound_drink");
  if (law == Law::eu && line.wine) rules.emplace_back("compound_wine");
  if (!us && line.additive) rules.emplace_back("additives");
  return rules;
}

/// The allergens that have to stand out in its name.
std::set<std::string> to_set_off(const ListLine& line, const ListOptions& options) {
  std::set<std::string> wanted;
  for (const std::string& one : line.holds) {
    const larder::Allergen* known = larder::find_allergen(one);
    const bool listed = known == nullptr || known->point > 0;
    if (options.law != Law::us && listed && one != "sulphites") wanted.insert(one);
  }
  if (options.sulphites && line.sulphited) wanted.insert("sulphites");
  return wanted;
}

std::string percent_of(double share, Tongue tongue) {
  return figure(quantity_percent(100 * share), tongue) + " %";
}

/// "wheat flour, water", with the quantity of a flour that the bread's name speaks of.
std::string sour_list(const ListLine& line, double finished, const ListOptions& options) {
  std::vector<SourFlour> flours = line.flours;
  std::stable_sort(flours.begin(), flours.end(), [](const SourFlour& a, const SourFlour& b) {
    return a.mass > b.mass;
  });
  std::string out;
  for (const SourFlour& flour : flours) {
    out += (out.empty() ? "" : ", ") + flour.name;
    if (flour.named && options.law != Law::us)
      out += " " + percent_of(flour.mass / finished, options.tongue);
  }
  const std::string water = label_word("water", options.tongue).name;
  return out + (out.empty() ? "" : ", ") + water;
}

Listed listed(const ListLine& line,
              double quantity,
              double left,
              double finished,
              const ListOptions& options) {
  const bool opened = line.starter && line.list.empty();
  const std::string list = opened ? sour_list(line, finished, options) : line.list;
  const bool us = options.law == Law::us;
  const std::set<std::string> wanted = to_set_off(line, options);
  std::string text = line.name + (list.empty() ? "" : " (" + list + ")");
  text = set_off(text, wanted, options.tongue);
  Listed item;
  item.name = marked(text, !us);
  if (!us) item.set_off = {wanted.begin(), wanted.end()};
  item.used = Mass::from_si(line.used);
  item.counted = Mass::from_si(line.counted);
  item.left = Mass::from_si(line.solids + line.water * left + options.alcohol_kept * line.alcohol);
  item.drink = line.drink;
  item.usual_list = line.usual_list && !line.list.empty();
  item.of_loaf = line.counted / finished;
  if (line.named && !us) item.quantity = quantity / finished;
  if (line.named && line.drink && !us) item.quantity_left = item.left.si() / finished;
  item.under_two_percent = us ? item.of_loaf <= two_percent : item.of_loaf < two_percent;
  item.may_be_left_out = !us && line.added_water && item.of_loaf <= five_percent;
  item.left_out = item.may_be_left_out && line.counted <= 0;
  item.rules = rules_of(line, options.law);
  return item;
}

// --- the text ---

/// Above 100 %, alone or together, quantities stand as grams used for 100 g.
void say_quantities(std::vector<Listed>& items, Tongue tongue) {
  double sum = 0;
  for (const Listed& item : items) sum += item.quantity;
  for (Listed& item : items) {
    if (item.quantity <= 0) continue;
    item.quantity_said =
        sum > 1 ? fmt::format("{} g {}", whole(100 * item.quantity), term("in_100_g", tongue))
                : percent_of(item.quantity, tongue);
    item.rules.insert(item.rules.end(), {"quid", "quid_ways", "quid_moisture"});
  }
}

LabelText text_of(const std::vector<Listed>& items, const ListOptions& options) {
  LabelText text{{term("ingredients", options.tongue) + ": ", false}};
  bool contains = false;
  bool first = true;
  for (const Listed& item : items) {
    if (item.left_out) continue;
    if (!first) text.push_back({", ", false});
    if (options.law == Law::us && item.under_two_percent && !contains && !first) {
      text.back().text = "; contains 2% or less of: ";
      contains = true;
    }
    first = false;
    text.insert(text.end(), item.name.begin(), item.name.end());
    if (!item.quantity_said.empty()) text.push_back({" " + item.quantity_said, false});
  }
  text.push_back({".", false});
  return text;
}

std::string names_of(const std::vector<Listed>& items) {
  std::string out;
  for (const Listed& item : items) {
    if (!item.left_out) out += (out.empty() ? "" : ", ") + plain(item.name);
  }
  return out;
}

std::vector<std::string> allergens_of(const std::vector<ListLine>& lines, Law law) {
  std::set<std::string> names;
  for (const ListLine& line : lines) {
    for (const std::string& one : line.holds) {
      const larder::Allergen* known = larder::find_allergen(one);
      const bool listed =
          known == nullptr || (law == Law::us ? !known->us.empty() : known->point > 0);
      if (listed && one != "sulphites") names.insert(one);
    }
  }
  return {names.begin(), names.end()};
}

}  // namespace

IngredientList ingredient_list(const Bake& bake,
                               std::span<const Composition> settled,
                               const formula::Bowl& bowl,
                               const ListOptions& options) {
  const double handled = 1 - bake.handling_loss;
  const double finished = bowl.dough.si() * handled * (1 - bake.bake_loss);
  std::vector<ListLine> lines;
  std::vector<formula::Portion> portions;
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    const double mass = bowl.lines[i].actual.si() * handled;
    if (mass <= 0) continue;
    for (auto& [portion, composition, share] : internal::made_of(bake, bake.bowl[i], settled[i])) {
      lines.push_back(internal::list_line(bake, portion, composition, share * mass, options));
      portions.push_back(std::move(portion));
    }
  }
  name_lines(bake, portions, options.tongue, lines);
  lines = merged(lines);
  std::vector<double> quantity;
  for (const ListLine& line : lines) quantity.push_back(line.used);
  gather_flours(lines, quantity);
  count_water(finished, options.law, lines);
  const double left = water_left(lines, finished, options.alcohol_kept);
  IngredientList list;
  list.finished = Mass::from_si(finished);
  list.allergens = allergens_of(lines, options.law);
  for (std::size_t i = 0; i < lines.size(); ++i)
    list.items.push_back(listed(lines[i], quantity[i], left, finished, options));
  std::vector<Listed> by_left = list.items;
  std::stable_sort(by_left.begin(), by_left.end(), [](const Listed& a, const Listed& b) {
    return a.left > b.left;
  });
  std::stable_sort(list.items.begin(), list.items.end(), [](const Listed& a, const Listed& b) {
    return a.counted > b.counted;
  });
  list.by_what_is_left = names_of(by_left);
  list.order_depends = options.law != Law::us && names_of(list.items) != list.by_what_is_left;
  if (options.law != Law::us) say_quantities(list.items, options.tongue);
  list.text = text_of(list.items, options);
  return list;
}

}  // namespace barm::shop

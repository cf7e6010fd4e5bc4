#include "shop/label.h"

#include <algorithm>

#include "generated/constants.h"
#include "shop/internal/label_lines.h"
#include "shop/questions.h"
#include "shop/told.h"

namespace barm::shop {

using formula::Bake;

namespace {

constexpr double mg_in_kilogram = 1e6;
constexpr const char* draft_words =
    "A draft, worked out from the recipe, for the person who answers for the food to check against "
    "local "
    "law before it is used. It is not legal advice.";

Nutrients nutrients_of(const Bake& bake, const LoafDraw& draw, Law law) {
  return nutrients(bake, draw.settled, draw.bowl, draw.fermented, draw.baked, law == Law::us);
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

/// Sulphites are told of something, without a figure: named to be on the sure side.
bool sulphites_are_asked(const Bake& bake, Tongue tongue) {
  const auto all = stated(bake);
  return std::any_of(all.begin(), all.end(), [&](const larder::Ingredient* one) {
    return sulphite_is_asked(*one, tongue);
  });
}

/// The ingredients of which nobody has said whether they hold an allergen.
std::string allergens_not_said(const Bake& bake) {
  std::string names;
  for (const larder::Ingredient* one : stated(bake)) {
    if (allergens_are_asked(*one)) names += (names.empty() ? "" : ", ") + one->name;
  }
  return names;
}

/// Without which a label could hurt or is none.
std::vector<std::string> missing_from(const Label& label) {
  std::vector<std::string> missing;
  if (!label.not_said.empty()) missing.push_back("the allergens of " + label.not_said);
  if (label.law != Law::us) return missing;
  for (const NutritionLine& line : label.nutrition) {
    if (!line.known) missing.push_back(line.name + " in 100 g of the loaf");
  }
  if (label.serving.measure.empty()) missing.emplace_back("how many loaves the bake makes");
  return missing;
}

std::vector<std::string> rules_in(const Label& label) {
  std::vector<std::string> ids;
  for (const auto* lines : {&label.lines, &label.questions}) {
    for (const LabelLine& line : *lines)
      ids.insert(ids.end(), line.rules.begin(), line.rules.end());
  }
  return ids;
}

void fill_nutrition(const Bake& bake, const Loaves& loaves, Label& label) {
  if (label.law != Law::us) {
    label.nutrition = eu_table(loaves, label.portion.in(gram));
    return;
  }
  label.serving = us_serving(label.loaf, label.fields.slices, label.portion);
  label.portion = label.serving.mass;
  label.nutrition = us_table(loaves,
                             label.portion.in(gram),
                             label.serving.whole_too ? label.loaf.in(gram) : 0,
                             internal::known_in_america(bake, label.fields));
}

void fill_lines(const Bake& bake, Label& label) {
  const bool us = label.law == Law::us;
  auto& lines = label.lines;
  lines.push_back(
      internal::label_line("name", {{label.name, false}}, {us ? "us_standard" : "date_and_maker"}));
  lines.push_back(internal::weight_line(label));
  lines.push_back(internal::ingredients_line(bake, label));
  if (!us) internal::add_quantity_lines(label, lines);
  lines.push_back(internal::allergens_line(label));
  lines.push_back(internal::sulphites_line(bake, label));
  lines.push_back(internal::nutrition_line(bake, label));
  internal::add_field_lines(bake, label, lines);
}

}  // namespace

double sulphite_bound(const Nutrients& nutrients) {
  return mg_in_kilogram * nutrients[Nutrient::sulphite] / nutrients.mass;
}

Label label(const Bake& bake,
            const LoafDraw& book,
            const std::vector<LoafDraw>& draws,
            const LabelOptions& options) {
  Loaves loaves{nutrients_of(bake, book, options.law), {}};
  for (const LoafDraw& draw : draws) loaves.draws.push_back(nutrients_of(bake, draw, options.law));
  Label out;
  out.law = options.law;
  out.fields = options.fields;
  out.tongue = tongue_of(options.law, options.fields);
  out.name = bake.name.empty() ? "bread" : bake.name;
  if (book.bowl.pieces > 0) out.loaf = Mass::from_si(loaves.book.mass / book.bowl.pieces);
  out.portion = options.portion;
  out.sulphite = loaves.of(sulphite_bound, 0.05, 0.95);
  out.sulphites = verdict(out.sulphite, options.law);
  if (out.sulphites == Sulphites::no && sulphites_are_asked(bake, out.tongue))
    out.sulphites = Sulphites::perhaps;
  out.alcohol = loaves.of([](const Nutrients& n) { return n.in_100_g(Nutrient::alcohol); });
  Bake asked = bake;
  asked.label = options.fields;
  out.ingredients = ingredient_list(
      asked,
      book.settled,
      book.bowl,
      {options.law, out.tongue, book.baked.alcohol_kept, out.sulphites != Sulphites::no});
  out.allergens = out.ingredients.allergens;
  out.not_said = allergens_not_said(bake);
  fill_nutrition(bake, loaves, out);
  fill_lines(bake, out);
  out.questions = questions(bake, out);
  out.missing = missing_from(out);
  out.remembered = remembered_first(rules_in(out));
  out.draft = draft_words;
  return out;
}

}  // namespace barm::shop

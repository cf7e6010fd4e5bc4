#include "shop/nutrition.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "generated/constants.h"
#include "generated/tables.h"
#include "larder/larder.h"
#include "units/units.h"

namespace barm::shop {

using larder::Composition;
using larder::Group;
using larder::Ingredient;
using larder::Property;

namespace {

/// What the tables know beside the larder, for each kilogram.
struct Beside {
  std::optional<double> saturates_of_fat;
  std::optional<double> nitrogen_factor;  ///< protein of the table over nitrogen
  double added_of_sugars = 0;
};

void fill_saturates(double saturated, double fat, Beside& beside) {
  if (fat > 0 && !std::isnan(saturated)) beside.saturates_of_fat = std::min(1.0, saturated / fat);
}

Beside from_tables(const Ingredient& ingredient) {
  Beside beside;
  for (const auto& row : tables::ingredients_usda) {
    if (ingredient.from != "usda:" + std::string(row.key)) continue;
    fill_saturates(row.saturated_g, row.fat_g, beside);
    if (row.n_to_protein > 0) beside.nitrogen_factor = row.n_to_protein;
  }
  for (const auto& row : tables::ingredients_ciqual) {
    if (ingredient.from != "ciqual:" + std::string(row.key)) continue;
    fill_saturates(row.saturated_g, row.fat_g, beside);
  }
  const std::string& key = ingredient.on_label.own ? ingredient.on_label.like : ingredient.key;
  for (const auto& row : tables::label_nutrients) {
    if (row.key != key) continue;
    if (!std::isnan(row.saturates_of_fat)) beside.saturates_of_fat = row.saturates_of_fat;
    if (!std::isnan(row.added_of_sugars)) beside.added_of_sugars = row.added_of_sugars;
  }
  if (ingredient.group == Group::sugar) beside.added_of_sugars = 1;
  return beside;
}

/// As the baker says it of an ingredient of his own, else of its fat.
double saturates_of(const Ingredient& ingredient, const Beside& beside, double fat) {
  const double of_fat =
      beside.saturates_of_fat.value_or(constants::label_units::saturates_of_fat.value.si());
  return ingredient.on_label.saturates.value_or(fat * of_fat);
}

double sugars_of(const Composition& c) {
  return c[Property::glucose] + c[Property::fructose] + c[Property::sucrose] +
         c[Property::maltose] + c[Property::lactose];
}

double acids_of(const Composition& c) {
  return c[Property::lactic_acid] + c[Property::acetic_acid] + c[Property::tartaric_acid] +
         c[Property::malic_acid] + c[Property::citric_acid] + c[Property::succinic_acid] +
         c[Property::gluconic_acid];
}

/// Adds a line of the bowl.
void add(const Ingredient& ingredient, const Composition& c, double mass, bool us, Nutrients& sum) {
  namespace units = constants::label_units;
  const Beside beside = from_tables(ingredient);
  const double sugars = sugars_of(c);
  const double glycerol = c[Property::glycerol];
  const double fat = c[Property::fat];
  sum[Nutrient::fat] += mass * fat;
  sum[Nutrient::saturates] += mass * saturates_of(ingredient, beside, fat);
  sum[Nutrient::carbohydrate] +=
      mass * (c[Property::starch] + c[Property::other_carbohydrate] + sugars + glycerol);
  sum[Nutrient::sugars] += mass * sugars;
  sum[Nutrient::added_sugars] +=
      mass * ingredient.on_label.added_sugars.value_or(sugars * beside.added_of_sugars);
  sum[Nutrient::polyols] += mass * glycerol;
  sum[Nutrient::fibre] += mass * c[Property::fibre];
  const double usual = ingredient.is_flour() ? units::flour_nitrogen_factor.value.si()
                                             : units::nitrogen_factor.value.si();
  const double protein_scale =
      us ? 1 : units::nitrogen_factor.value.si() / beside.nitrogen_factor.value_or(usual);
  const bool from_usda = ingredient.from.starts_with("usda:");
  sum[Nutrient::protein] += mass * c[Property::protein] * (from_usda ? protein_scale : 1);
  sum[Nutrient::salt] += mass * c[Property::salt] * units::salt_per_sodium.value.si() /
                         constants::larder::salt_per_sodium.value.si();
  sum[Nutrient::alcohol] += mass * c[Property::ethanol];
  sum[Nutrient::acids] += mass * acids_of(c);
  sum[Nutrient::sulphite] += mass * c[Property::total_sulphite];
  sum[Nutrient::calcium] += mass * c[Property::calcium];
  sum[Nutrient::potassium] += mass * c[Property::potassium];
}

/// Hexose used came out of starch or maltose for the most part: 162 g of it for 180 g of hexose.
constexpr double starch_of_hexose = 162.14 / 180.16;

void ferment(const Fermented& fermented, double dough, Nutrients& sum) {
  const double used = dough * fermented.sugar_used.in(kilogram);
  sum[Nutrient::carbohydrate] =
      std::max(0.0, sum[Nutrient::carbohydrate] - starch_of_hexose * used);
  sum[Nutrient::sugars] = dough * fermented.sugar_left.in(kilogram);
  sum[Nutrient::added_sugars] = std::min(sum[Nutrient::added_sugars], sum[Nutrient::sugars]);
  sum[Nutrient::alcohol] += dough * fermented.alcohol.in(kilogram);
  sum[Nutrient::acids] += dough * fermented.acid.in(kilogram);
}

constexpr double grams_in_kilogram = 1000;

}  // namespace

const Ingredient& composed_of(const formula::Bake& bake, const formula::Portion& portion) {
  return portion.levain && bake.levain ? bake.levain->flour : portion.ingredient;
}

Nutrients nutrients(const formula::Bake& bake,
                    std::span<const Composition> settled,
                    const formula::Bowl& bowl,
                    const Fermented& fermented,
                    const Baked& baked,
                    bool us) {
  Nutrients sum;
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    add(composed_of(bake, bake.bowl[i]), settled[i], bowl.lines[i].actual.si(), us, sum);
  }
  ferment(fermented, bowl.dough.si(), sum);
  sum[Nutrient::alcohol] *= baked.alcohol_kept;
  if (us) sum[Nutrient::carbohydrate] += sum[Nutrient::fibre] + sum[Nutrient::acids];
  const double handled = 1 - bake.handling_loss;
  for (double& value : sum.value) value *= handled;
  sum.mass = bowl.dough.si() * handled * (1 - baked.loss);
  double solids = sum[Nutrient::fat] + sum[Nutrient::carbohydrate] + sum[Nutrient::protein] +
                  sum[Nutrient::salt] + sum[Nutrient::alcohol];
  if (!us) solids += sum[Nutrient::fibre] + sum[Nutrient::acids];
  sum.water = std::max(0.0, sum.mass - solids);
  return sum;
}

double kilojoules(const Nutrients& n) {
  namespace factor = constants::energy;
  const auto energy = [](double kilograms, const auto& per_mass) {
    return Mass::from_si(kilograms) * per_mass.value;
  };
  const auto sum =
      energy(n[Nutrient::carbohydrate] - n[Nutrient::polyols], factor::carbohydrate) +
      energy(n[Nutrient::polyols], factor::polyols) +
      energy(n[Nutrient::protein], factor::protein) + energy(n[Nutrient::fat], factor::fat) +
      energy(n[Nutrient::alcohol], factor::alcohol) +
      energy(n[Nutrient::acids], factor::organic_acid) + energy(n[Nutrient::fibre], factor::fibre);
  constexpr double joules_in_kilojoule = 1000;
  return sum.in(joule) / joules_in_kilojoule;
}

double kilocalories(const Nutrients& n) {
  namespace factor = constants::kilocalories;
  const double per_gram =
      (n[Nutrient::carbohydrate] - n[Nutrient::polyols]) * factor::carbohydrate.value.si() +
      n[Nutrient::polyols] * factor::polyols.value.si() +
      n[Nutrient::protein] * factor::protein.value.si() +
      n[Nutrient::fat] * factor::fat.value.si() +
      n[Nutrient::alcohol] * factor::alcohol.value.si() +
      n[Nutrient::acids] * factor::organic_acid.value.si() +
      n[Nutrient::fibre] * factor::fibre.value.si();
  return grams_in_kilogram * per_gram;
}

double us_calories(const Nutrients& n) {
  namespace factor = constants::us_calories;
  return grams_in_kilogram * (n[Nutrient::carbohydrate] * factor::carbohydrate.value.si() +
                              n[Nutrient::protein] * factor::protein.value.si() +
                              n[Nutrient::fat] * factor::fat.value.si() +
                              n[Nutrient::alcohol] * factor::alcohol.value.si());
}

bool knows_saturates(const Ingredient& ingredient) {
  const auto& fat = ingredient[Property::fat];
  if (ingredient.on_label.saturates) return true;
  if (!fat || fat->typical <= 0) return true;
  return from_tables(ingredient).saturates_of_fat.has_value();
}

bool holds_no_cholesterol(const Ingredient& ingredient) {
  static constexpr Group of_plants[] = {Group::flour,
                                        Group::starter,
                                        Group::yeast,
                                        Group::water,
                                        Group::drink,
                                        Group::salt,
                                        Group::sugar,
                                        Group::seed,
                                        Group::fruit,
                                        Group::acid,
                                        Group::malt};
  const auto among = [](const auto& list, const auto& one) {
    return std::find(std::begin(list), std::end(list), one) != std::end(list);
  };
  return larder::find(ingredient.name) != nullptr && among(of_plants, ingredient.group) &&
         !among(ingredient.allergens, "milk") && !among(ingredient.allergens, "eggs");
}

}  // namespace barm::shop

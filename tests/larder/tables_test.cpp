// The tables themselves, and strengths and densities computed from them against published ones.
#include "generated/tables.h"

#include <gmock/gmock.h>

#include <cmath>
#include <map>
#include <string>

#include "../support/matchers.h"
#include "larder/composition.h"

namespace barm::larder {
namespace {

using test::Holds;

double or_zero(double cell) { return std::isnan(cell) ? 0 : cell; }

Known grams(double cell) {
  const double share = or_zero(cell) / 100;
  return {share, share, share, nullptr, ""};
}

Ingredient from(const tables::ingredients_usda_row& row) {
  Ingredient drink;
  drink.name = row.key;
  drink.group = Group::drink;
  drink[Property::ethanol] = grams(row.alcohol_g);
  drink[Property::protein] = grams(row.protein_g);
  drink[Property::fat] = grams(row.fat_g);
  drink[Property::other_carbohydrate] = grams(row.carbohydrate_by_difference_g);
  drink[Property::ash] = grams(row.ash_g);
  for (const Property unknown : assumed_properties(drink)) drink[unknown] = grams(0);
  return drink;
}

const tables::ingredients_usda_row& usda(std::string_view key) {
  for (const auto& row : tables::ingredients_usda) {
    if (row.key == key) return row;
  }
  throw std::runtime_error("no row " + std::string(key));
}

/// Labelled proof and strength of the drinks that a table analysed, to the digit that was
/// published.
TEST(Tables, SpiritsAndBeerHaveTheirPublishedStrength) {
  const std::map<std::string_view, double> published = {{"spirit_80proof_all", 40.1},
                                                        {"whisky_86proof", 43.0},
                                                        {"spirit_100proof", 50.1},
                                                        {"beer_regular", 5.0}};
  for (const auto& [key, strength] : published) {
    const auto settled = typical(from(usda(key)));
    ASSERT_THAT(settled, Holds()) << key;
    EXPECT_NEAR(100 * (*settled)[Property::strength], strength, 0.05) << key;
  }
}

/// abv_calc and density_calc were computed once outside this program, by the same law.
TEST(Tables, EveryAlcoholicRowHasItsTabledStrengthAndDensity) {
  int rows = 0;
  for (const auto& row : tables::ingredients_usda) {
    if (std::isnan(row.density_calc_g_ml) || or_zero(row.fat_g) > 0) continue;
    const auto settled = typical(from(row));
    ASSERT_THAT(settled, Holds()) << row.key;
    EXPECT_NEAR(100 * (*settled)[Property::strength], row.abv_calc_percent, 0.06) << row.key;
    EXPECT_NEAR((*settled)[Property::density], 1000 * row.density_calc_g_ml, 0.6) << row.key;
    ++rows;
  }
  EXPECT_GE(rows, 20);
}

/// Vinegar lacks its acid and four rows their alcohol; nothing else may.
TEST(Tables, ProximatesAddUpToAHundredGrams) {
  for (const auto& row : tables::ingredients_usda) {
    const bool acid_missing = row.key.starts_with("vinegar");
    const bool alcohol_missing = std::isnan(row.alcohol_g) && row.proximate_sum_g < 98;
    const double sum = or_zero(row.water_g) + or_zero(row.protein_g) + or_zero(row.fat_g) +
                       or_zero(row.carbohydrate_by_difference_g) + or_zero(row.ash_g) +
                       or_zero(row.alcohol_g);
    EXPECT_NEAR(sum, row.proximate_sum_g, 0.011) << row.key;
    if (!acid_missing && !alcohol_missing) {
      EXPECT_NEAR(sum, 100, 0.9) << row.key;
    }
  }
  for (const auto& row : tables::ingredients_ciqual) {
    if (std::isnan(row.water_g)) continue;
    const double sum = row.water_g + or_zero(row.protein_g) + or_zero(row.fat_g) +
                       or_zero(row.carbohydrate_available_g) + or_zero(row.fibre_g) +
                       or_zero(row.ash_g) + or_zero(row.alcohol_g) + or_zero(row.organic_acids_g);
    EXPECT_NEAR(sum, 100, 3.0) << row.key;
  }
}

}  // namespace
}  // namespace barm::larder

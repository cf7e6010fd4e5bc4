// Ten loaves whose labels are worked out a second time here, from the weights and the rows of the
// composition table alone: Regulation (EU) No 1169/2011, Art. 18, 22, 31(4), Annexes I, VII, VIII,
// XIV. Nothing of the label's own code is used.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "formula/read.h"
#include "generated/tables.h"
#include "shop/label.h"
#include "support/validation.h"

namespace barm::shop {

namespace {

struct Part {
  const char* name;  ///< in the bake
  const char* row;   ///< of ingredients_usda.csv; "salt" and "" stand for salt and water
  double grams;
  const char* listed;  ///< in the list, allergens in capitals
  bool named;          ///< the bread's name speaks of it
};

struct Recipe {
  const char* name;
  double bake_loss;
  std::vector<Part> parts;
};

const Part flour = {"white bread flour", "wheat_bread_unenriched", 1000, "WHEAT flour", false};
const Part salt = {"salt", "salt", 20, "salt", false};

Part of(const char* name, const char* row, double grams, const char* listed, bool named = false) {
  return {name, row, grams, listed, named};
}

Part water(double grams) { return of("water", "", grams, "water"); }

std::vector<Recipe> recipes() {
  const char* raisins = "raisins_seedless";
  return {
      {"Plain loaf", 0.12, {flour, water(650), salt}},
      {"Walnut loaf",
       0.11,
       {flour, water(640), salt, of("walnuts", "walnuts", 200, "WALNUTS", true)}},
      {"Milk loaf", 0.10, {flour, of("whole milk", "milk_whole", 620, "whole MILK", true), salt}},
      {"Honey and oat loaf",
       0.12,
       {flour,
        water(700),
        salt,
        of("honey", "honey", 60, "honey", true),
        of("rolled oats", "rolled_oats_dry", 150, "OAT flakes", true)}},
      {"Sunflower loaf",
       0.13,
       {flour,
        water(680),
        salt,
        of("sunflower seed", "sunflower_kernels", 180, "sunflower seed", true)}},
      {"Raisin bread",
       0.09,
       {flour, water(600), salt, of("raisins", raisins, 300, "raisins", true)}},
      {"Sunday loaf",
       0.10,
       {flour,
        water(300),
        salt,
        of("butter", "butter_unsalted", 250, "butter (MILK)"),
        of("egg", "egg_whole", 200, "EGG"),
        of("sugar", "sugar_granulated", 90, "sugar")}},
      {"Rye loaf",
       0.12,
       {flour, water(800), salt, of("rye flour", "rye_medium", 400, "RYE flour", true)}},
      {"Olive oil loaf",
       0.11,
       {flour, water(600), salt, of("olive oil", "olive_oil", 70, "olive oil", true)}},
      {"Almond and sesame loaf",
       0.12,
       {flour,
        water(640),
        salt,
        of("almonds", "almonds", 120, "ALMONDS", true),
        of("sesame seed", "sesame_whole", 80, "SESAME seed", true)}},
  };
}

double total(const Recipe& recipe) {
  double sum = 0;
  for (const Part& part : recipe.parts) sum += part.grams;
  return sum;
}

bool is_water(const Part& part) { return std::string(part.row).empty(); }

/// What the order goes by: used, of water what the others leave of the loaf.
double counted(const Recipe& recipe, const Part& part) {
  if (!is_water(part)) return part.grams;
  const double finished = total(recipe) * (1 - recipe.bake_loss);
  return std::clamp(finished - (total(recipe) - part.grams), 0.0, part.grams);
}

/// "25 %"; under 5 % to the half.
std::string percent(double value) {
  const double step = value < 5 ? 0.5 : 1;
  const double said = std::floor(value / step + 0.5) * step;
  std::string text = std::to_string(said);
  text.resize(text.find('.') + (said == std::floor(said) ? 0 : 2));
  return text + " %";
}

std::string list_by_hand(const Recipe& recipe) {
  std::vector<Part> parts = recipe.parts;
  std::stable_sort(parts.begin(), parts.end(), [&](const Part& a, const Part& b) {
    return counted(recipe, a) > counted(recipe, b);
  });
  std::string text = "Ingredients: ";
  for (const Part& part : parts) {
    if (&part != &parts.front()) text += ", ";
    text += part.listed;
    const double share = part.grams / total(recipe) / (1 - recipe.bake_loss);
    if (part.named) text += " " + percent(100 * share);
  }
  return text + ".";
}

/// Grams in 100 g of the loaf, and kJ.
struct Values {
  double fat = 0, saturates = 0, carbohydrate = 0, fibre = 0, protein = 0, salt = 0;

  [[nodiscard]] double kilojoules() const {
    return 37 * fat + 17 * (carbohydrate + protein) + 8 * fibre;
  }
};

void add(const Part& part, double scale, Values& sum) {
  if (std::string(part.row) == "salt") sum.salt += scale * 0.998 * 2.5 / 2.542;
  for (const auto& row : tables::ingredients_usda) {
    if (row.key != part.row) continue;
    const double share = scale / 100;
    const double factor = std::isnan(row.n_to_protein) ? 6.25 : row.n_to_protein;
    const double fibre = std::isnan(row.fibre_g) ? 0 : row.fibre_g;
    sum.fat += share * row.fat_g;
    if (!std::isnan(row.saturated_g)) sum.saturates += share * row.saturated_g;
    if (!std::isnan(row.sodium_mg)) sum.salt += share * row.sodium_mg / 1000 * 2.5;
    sum.carbohydrate += share * (row.carbohydrate_by_difference_g - fibre);
    sum.fibre += share * fibre;
    sum.protein += share * row.protein_g * (factor > 0 ? 6.25 / factor : 1);
  }
}

Values by_hand(const Recipe& recipe) {
  Values sum;
  const double finished = total(recipe) * (1 - recipe.bake_loss);
  for (const Part& part : recipe.parts) add(part, 100 * part.grams / finished, sum);
  return sum;
}

Label made(const Recipe& recipe) {
  std::string text = std::string("name = \"") + recipe.name + "\"\npieces = 1\nloss = { bake = \"" +
                     std::to_string(100 * recipe.bake_loss) + " %\" }\n[bowl]\n";
  for (const Part& part : recipe.parts)
    text += std::string("\"") + part.name + "\" = \"" + std::to_string(part.grams) + " g\"\n";
  const auto bake = formula::parse_bake(text, "b.toml");
  if (!bake) ADD_FAILURE() << bake.error().text();
  LoafDraw draw;
  draw.settled = formula::settle(*bake).value();
  draw.bowl = formula::in_the_bowl(*bake, draw.settled).value();
  draw.baked.loss = bake->bake_loss;
  return label(*bake, draw, {}, {Law::eu, Mass(), {}});
}

double ours(const Label& label, const std::string& name, const std::string& unit) {
  for (const NutritionLine& line : label.nutrition) {
    if (line.name == name && line.unit == unit) return line.in_100_g.middle;
  }
  ADD_FAILURE() << "no line " << name;
  return 0;
}

TEST(TenLoaves, HaveTheListOfASecondCalculation) {
  for (const Recipe& recipe : recipes())
    EXPECT_EQ(plain(made(recipe).ingredients.text, true), list_by_hand(recipe)) << recipe.name;
}

/// The larder makes a row's parts sum to its weight, and counts a fruit's acids apart: within 1 in
/// 100 of the table's own.
TEST(TenLoaves, HaveTheNutritionOfASecondCalculation) {
  double furthest = 0;
  for (const Recipe& recipe : recipes()) {
    const Label label = made(recipe);
    const Values hand = by_hand(recipe);
    const auto near = [&](const char* name, const char* unit, double expected) {
      const double value = ours(label, name, unit);
      EXPECT_NEAR(value, expected, 0.01 * expected + 0.02) << recipe.name << ", " << name;
      if (expected > 1) furthest = std::max(furthest, std::abs(value / expected - 1));
    };
    near("energy", "kJ", hand.kilojoules());
    near("fat", "g", hand.fat);
    near("of which saturates", "g", hand.saturates);
    near("fibre", "g", hand.fibre);
    near("protein", "g", hand.protein);
    near("salt", "g", hand.salt);
  }
  test::record("label",
               "ten loaves, energy to salt, worked out again from the table's rows",
               "a second calculation in the test; Annexes I and XIV",
               "0",
               100 * furthest,
               "% at most",
               furthest < 0.01);
}

}  // namespace

}  // namespace barm::shop

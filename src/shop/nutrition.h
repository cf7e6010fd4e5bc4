#pragma once
// What is in a loaf to eat, from what went into the bowl, what fermented and what left in the oven.
#include <array>
#include <span>
#include <string_view>

#include "formula/bake.h"
#include "formula/bowl.h"
#include "larder/composition.h"

namespace barm::shop {

/// What a nutrition table speaks of, and what its energy comes from.
enum class Nutrient {
  fat,
  saturates,
  carbohydrate,  ///< that the body uses, polyols in it, fibre not
  sugars,
  added_sugars,
  polyols,
  fibre,
  protein,
  salt,  ///< sodium times 2.5
  alcohol,
  acids,
  sulphite,
  calcium,
  potassium
};

inline constexpr std::size_t nutrient_count = static_cast<std::size_t>(Nutrient::potassium) + 1;

/// Masses of each [kg], and the mass they are in.
struct Nutrients {
  std::array<double, nutrient_count> value{};
  double mass = 0;   ///< [kg] of the loaf
  double water = 0;  ///< [kg]

  [[nodiscard]] double operator[](Nutrient nutrient) const {
    return value[static_cast<std::size_t>(nutrient)];
  }

  [[nodiscard]] double& operator[](Nutrient nutrient) {
    return value[static_cast<std::size_t>(nutrient)];
  }

  /// Grams in 100 g.
  [[nodiscard]] double in_100_g(Nutrient nutrient) const { return 100 * (*this)[nutrient] / mass; }
};

/// What fermentation made of a kilogram of dough, and left of its sugars.
struct Fermented {
  Mass sugar_used;  ///< hexose, of yeast and bacteria
  Mass alcohol;     ///< made
  Mass acid;        ///< made
  Mass gas;         ///< carbon dioxide made
  Mass sugar_left;  ///< hexose and maltose
};

/// How the oven leaves the dough.
struct Baked {
  double loss = 0.12;          ///< of the dough
  double alcohol_kept = 0.35;  ///< share of the alcohol in the dough that stays in the loaf
};

/// The ingredient whose composition a line has: the flour of a levain that was fed it.
[[nodiscard]] const larder::Ingredient& composed_of(const formula::Bake& bake,
                                                    const formula::Portion& portion);

/// The nutrients of the whole batch as baked.
///
///     part  = (1 - handling loss) * sum over the bowl of mass * share
///     carbohydrate = starch + sugars + other + glycerol - 0.9 sugar used
///     protein      = N * 6.25, where a table has N times another factor
///     alcohol      = (brought + made) * kept
///     mass         = dough (1 - handling loss)(1 - bake loss)
///
/// Equations 14 to 19 of docs/model/shop.md. `us` keeps protein as the table has it and counts
/// fibre as carbohydrate. Checked against: tests/shop/nutrition_test.cpp,
/// tests/truth/loaf_test.cpp.
[[nodiscard]] Nutrients nutrients(const formula::Bake& bake,
                                  std::span<const larder::Composition> settled,
                                  const formula::Bowl& bowl,
                                  const Fermented& fermented,
                                  const Baked& baked,
                                  bool us = false);

/// Energy by the factors of the EU's Annex XIV, alcohol and organic acids counted [kJ] and [kcal].
[[nodiscard]] double kilojoules(const Nutrients& nutrients);
[[nodiscard]] double kilocalories(const Nutrients& nutrients);

/// Calories by 4, 4 and 9, alcohol by 7.
[[nodiscard]] double us_calories(const Nutrients& nutrients);

/// Whether the tables know how much of this ingredient's fat is saturated; else it is assumed.
[[nodiscard]] bool knows_saturates(const larder::Ingredient& ingredient);

/// Whether the larder tells that it comes of no animal. Of fats and of what is the baker's own it
/// does not tell.
[[nodiscard]] bool holds_no_cholesterol(const larder::Ingredient& ingredient);

}  // namespace barm::shop

#pragma once
// The nutrition table of a label: each value with its range, rounded as its law has it.
#include <functional>
#include <string>
#include <vector>

#include "formula/label_fields.h"
#include "shop/nutrition.h"

namespace barm::shop {

/// A value and the range that holds 4 of 5 such loaves.
struct Ranged {
  double middle = 0, low = 0, high = 0;
};

/// The nutrients of the typical loaf and of every draw.
struct Loaves {
  Nutrients book;
  std::vector<Nutrients> draws;

  /// A value of the typical loaf with the quantiles `low` and `high` of the draws.
  [[nodiscard]] Ranged of(const std::function<double(const Nutrients&)>& value,
                          double low = 0.1,
                          double high = 0.9) const;
};

/// A line of the nutrition table.
struct NutritionLine {
  std::string name;        ///< "of which saturates"
  std::string unit;        ///< "g", "kJ", "kcal"; empty for Calories and where not known
  bool known = true;       ///< false: asked for by the law and not known here
  Ranged in_100_g;         ///< zero where not known
  std::string said_100_g;  ///< rounded by the law; "not known"
  std::string said_portion;
  std::string daily_value;  ///< [%] of the Daily Value in a portion, rounded; US alone, else empty
  std::string said_whole;   ///< of a whole piece, where that has a column of its own; US alone
  std::string daily_whole;
  int indent = 0;  ///< how deep it stands under the line above
};

/// What a bake's ingredients let be known of what the United States ask for.
struct KnownInAmerica {
  bool no_cholesterol = false;  ///< no ingredient comes of an animal; else cholesterol is not known
  bool calcium = false;
  bool potassium = false;
  formula::LabelFields fields;  ///< what a laboratory or the makers say
};

/// `portion` in grams; zero in the Union: by 100 g alone. `whole`, in grams: of a piece that has a
/// column of its own, or zero. Source: label_rules.csv, `nutrition` and `us_nutrition`; Daily
/// Values data/shop.toml [daily_values]. Checked against: tests/truth/label_rounding_test.cpp,
/// tests/truth/loaf_test.cpp.
[[nodiscard]] std::vector<NutritionLine> eu_table(const Loaves& loaves, double portion);
[[nodiscard]] std::vector<NutritionLine> us_table(const Loaves& loaves,
                                                  double portion,
                                                  double whole,
                                                  const KnownInAmerica& known);

}  // namespace barm::shop

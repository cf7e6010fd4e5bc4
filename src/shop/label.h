#pragma once
// A draft of a bread's label: what stands on it, by which rule, and what is not known.
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "formula/bake.h"
#include "formula/bowl.h"
#include "larder/composition.h"
#include "shop/ingredient_list.h"
#include "shop/label_rule.h"
#include "shop/nutrition.h"
#include "shop/nutrition_table.h"
#include "shop/serving.h"

namespace barm::shop {

/// One loaf of those this bake may give: bottles, fermentation and oven drawn together.
struct LoafDraw {
  std::vector<larder::Composition> settled;  ///< of each line of the bowl
  formula::Bowl bowl;
  Fermented fermented;
  Baked baked;
};

/// A line of the label.
struct LabelLine {
  std::string field;                 ///< "ingredients", "allergens", "sulphites", …
  LabelText text;                    ///< what may be printed
  std::vector<std::string> rules;    ///< ids of label_rule()
  std::vector<std::string> unknown;  ///< what is not known, in words
};

/// Whether sulphites have to be named.
enum class Sulphites { no, perhaps, yes };

struct Label {
  Law law = Law::eu;
  Tongue tongue = Tongue::en;
  std::string name;
  formula::LabelFields fields;
  Mass loaf;        ///< zero where the bake does not say how many loaves it makes
  Mass portion;     ///< zero in the Union where none was asked for
  Serving serving;  ///< in the United States
  std::vector<LabelLine> lines;
  IngredientList ingredients;
  std::vector<std::string> allergens;
  std::string not_said;  ///< the baker's own whose allergens the file does not tell, by name
  std::vector<NutritionLine> nutrition;
  Ranged sulphite;  ///< [mg/kg] at most, were none to leave; `high` bounds 19 of 20 such loaves
  Sulphites sulphites = Sulphites::no;  ///< perhaps: named to be on the sure side
  Ranged alcohol;                       ///< [g in 100 g] of the loaf
  std::vector<LabelLine> questions;     ///< to ask locally; nothing of them is printed
  std::vector<std::string> missing;     ///< without which nothing may be printed, in words
  std::vector<std::string> remembered;  ///< rules that were not read, the worst first
  std::string draft;                    ///< what this is: a draft for a responsible person
};

struct LabelOptions {
  Law law = Law::eu;
  Mass portion;  ///< zero: none in the Union, the serving of the law in the United States
  formula::LabelFields fields;  ///< the bake's own, with what was said beside it
};

/// The label of a bake from its book loaf and many draws of it.
[[nodiscard]] Label label(const formula::Bake& bake,
                          const LoafDraw& book,
                          const std::vector<LoafDraw>& draws,
                          const LabelOptions& options);

/// The weight of a loaf as its law wants it said: "792 g", "Net Wt 1 lb 11.9 oz (792 g)".
[[nodiscard]] std::string weight_words(const Label& label);

/// The day until which it is best, "best before 3 December"; the year too where the day of baking
/// is not known or over three months before. Empty where no day is given.
[[nodiscard]] std::string best_before_words(const Label& label,
                                            const std::optional<time::Date>& baked);

/// Sulphite of a loaf if none leaves, all that the bowl brought [mg/kg].
///
///     S <= sum(mass * total sulphite) (1 - handling loss) / finished weight
[[nodiscard]] double sulphite_bound(const Nutrients& nutrients);

}  // namespace barm::shop

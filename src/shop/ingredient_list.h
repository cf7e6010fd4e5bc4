#pragma once
// The list of ingredients in its legal order.
#include <span>
#include <string>
#include <vector>

#include "formula/bake.h"
#include "formula/bowl.h"
#include "larder/composition.h"
#include "shop/label_rule.h"

namespace barm::shop {

/// A piece of a label's text; what is strong is set off by its type.
struct TextPiece {
  std::string text;
  bool strong = false;
};

using LabelText = std::vector<TextPiece>;

/// "wheat flour": as it reads; strong pieces in capitals when `capitals`.
[[nodiscard]] std::string plain(const LabelText& text, bool capitals = false);

/// "{wheat} flour" with what stands in braces strong.
[[nodiscard]] LabelText marked(std::string_view text, bool with_emphasis = true);

/// One ingredient of the list.
struct Listed {
  LabelText name;             ///< "WHEAT flour", "sourdough (WHEAT flour, water)"
  Mass used;                  ///< as weighed into the bowl, for the batch
  Mass left;                  ///< of it in the finished batch: less where water and alcohol left
  double of_loaf = 0;         ///< left over the finished weight: what the order goes by
  double quantity = 0;        ///< used over the finished weight, 0 when it needs no figure
  double quantity_left = 0;   ///< the same by what is left of a volatile one
  std::string quantity_said;  ///< "21 %", or "104 g in 100 g"; empty when it needs none
  bool under_two_percent = false;
  bool drink = false;            ///< part of it leaves in the oven
  bool may_be_left_out = false;  ///< added water at 5 % or less
  std::vector<std::string> rules;
};

struct IngredientList {
  std::vector<Listed> items;   ///< in the order of the law
  LabelText text;              ///< "Ingredients: …"
  std::string by_the_bowl;     ///< the order by the weights in the bowl alone
  bool order_depends = false;  ///< whether the two orders differ
  Mass finished;               ///< weight of the finished batch
};

/// The list for a bake.
///
///     finished   M = dough (1 - handling loss)(1 - bake loss)
///     water left   = M - everything but added water and the drinks' water and alcohol
///                      - alcohol left, shared among water and drinks by the water they brought
///     of the loaf  = left / M,   quantity = used (1 - handling loss) / M
///
/// In the United States the order is that of the weights used. `sulphites`: the loaf holds enough
/// of them to be named. Source: data/tables/label_names.csv, data/tables/label_rules.csv. Checked
/// against: tests/shop/ingredient_list_test.cpp.
[[nodiscard]] IngredientList ingredient_list(const formula::Bake& bake,
                                             std::span<const larder::Composition> settled,
                                             const formula::Bowl& bowl,
                                             double alcohol_kept,
                                             bool sulphites,
                                             Law law);

/// The legal names of the allergens that an ingredient brings: "wheat", "milk"; sulphites left out.
[[nodiscard]] std::vector<std::string> allergens_of(const formula::Bake& bake, Law law);

}  // namespace barm::shop

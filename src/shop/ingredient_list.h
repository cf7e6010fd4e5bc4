#pragma once
// The list of ingredients in its legal order.
#include <span>
#include <string>
#include <vector>

#include "formula/bake.h"
#include "formula/bowl.h"
#include "larder/composition.h"
#include "shop/label_rule.h"
#include "shop/label_text.h"
#include "shop/wording.h"

namespace barm::shop {

/// One ingredient of the list.
struct Listed {
  LabelText name;             ///< "WHEAT flour", "sourdough (WHEAT flour, water)"
  Mass used;                  ///< as weighed into the bowl, for the batch
  Mass counted;               ///< what the order goes by: used, or for added water what the loaf
                              ///< leaves of it when the others are taken off as used
  Mass left;                  ///< of it in the finished batch: less where water and alcohol left
  double of_loaf = 0;         ///< counted over the finished weight
  double quantity = 0;        ///< used over the finished weight, 0 when it needs no figure
  double quantity_left = 0;   ///< the same by what is left of a drink
  std::string quantity_said;  ///< "21 %", or "104 g in 100 g"; empty when it needs none
  std::vector<std::string> set_off;  ///< keys of the allergens that stand out in its name
  bool under_two_percent = false;
  bool drink = false;            ///< part of it leaves in the oven
  bool may_be_left_out = false;  ///< added water at 5 % or less
  bool left_out = false;         ///< added water of which the loaf leaves none: not printed
  bool usual_list = false;       ///< its own list is the usual one: the maker's goes before
  std::vector<std::string> rules;
};

struct IngredientList {
  std::vector<Listed> items;  ///< in the order of the law
  LabelText text;             ///< "Ingredients: WHEAT flour, …"
  std::vector<std::string>
      allergens;                ///< keys, sulphites left out; in the United States of "Contains"
  std::string by_what_is_left;  ///< the order by what is left of the drinks too
  bool order_depends = false;   ///< whether the two orders differ
  Mass finished;                ///< weight of the finished batch
};

struct ListOptions {
  Law law = Law::eu;
  Tongue tongue = Tongue::en;
  double alcohol_kept = 0;
  bool sulphites = false;  ///< the loaf may hold enough of them to be named
};

/// The list for a bake.
///
///     finished   M = dough (1 - handling loss)(1 - bake loss)
///     counted      = used; of added water M less all others as used, not below 0
///     quantity     = used (1 - handling loss) / M
///
/// In the United States the order is that of the weights used, water too. Source:
/// data/tables/label_words.csv, allergens.csv, label_rules.csv. Checked against:
/// tests/shop/ingredient_list_test.cpp, tests/laws/label_laws_test.cpp.
[[nodiscard]] IngredientList ingredient_list(const formula::Bake& bake,
                                             std::span<const larder::Composition> settled,
                                             const formula::Bowl& bowl,
                                             const ListOptions& options);

}  // namespace barm::shop

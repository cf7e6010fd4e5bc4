#pragma once
// A bake's drinks in whole bottles.
#include <string>
#include <vector>

#include "base/result.h"
#include "formula/bake.h"
#include "shop/bottles.h"
#include "shop/price_list.h"

namespace barm::shop {

/// How one drink of a bake comes out in bottles.
struct DrinkInBottles {
  std::string drink;
  std::vector<std::string> sizes;  ///< as written
  Volume loaf;                     ///< what a loaf needs, waste included
  BottlePlan batch;                ///< for the bake as it stands
  BottlePlan cheapest;             ///< least a loaf, up to `most` loaves
  std::vector<BottlePlan> whole;   ///< the fewest loaves that use bottles up; empty when none does
  int most = 0;                    ///< loaves looked at
};

/// Every drink, juice or milk of the bake for which the price file has a size by volume. `most`
/// loaves are looked at; 0 for five batches, at least 24. Errors: those of package_mass(),
/// bad_input for a bottle under 1 mL or a batch of too many bottles.
[[nodiscard]] Result<std::vector<DrinkInBottles>> in_bottles(const formula::Bake& bake,
                                                             const PriceList& prices,
                                                             int most = 0);

}  // namespace barm::shop

#pragma once
// What a bake costs: a tree from the batch down to the gram, and what a change of each part does.
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "formula/bake.h"
#include "formula/bowl.h"
#include "larder/composition.h"
#include "shop/money.h"
#include "shop/price_list.h"

namespace barm::shop {

/// One part of the cost. The parts below it sum to it, exactly and as shown.
struct CostPart {
  std::string name;
  std::string words;         ///< how it comes about: "1132 g, 750 mL at 9.60 EUR"
  std::optional<Mass> mass;  ///< of a thing in the bowl
  Cash batch;                ///< for the whole batch
  Cash loaf;                 ///< for each loaf that can be sold
  std::int64_t shown_batch = 0, shown_loaf = 0;  ///< in minor units
  std::vector<CostPart> parts;
};

/// What is left at a step.
struct Yield {
  std::string step;
  Mass before, after;
  double loaves_before = 0, loaves_after = 0;
  Cash
      sunk;  ///< of the batch's cost: what the part that is lost had cost, at the loaf's whole cost
};

/// What a bake costs by a price file. Money is net of tax that comes back.
///
///     ingredient = price of the package * mass / (mass in a package) / (1 - waste)
///     work       = hourly (time a batch + pieces * time a loaf)
///     oven       = price a kWh * power (preheat + duty * loads * bake)
///     overhead   = by the batch, or by the month / loaves a month
///     loaf       = batch / (pieces * product of (1 - lost) over the steps)
///
/// Equations 1 to 5 of docs/model/shop.md. Checked against: tests/shop/cost_test.cpp,
/// tests/truth/shop_examples_test.cpp.
struct Costing {
  CostPart all;
  Cash fixed;              ///< of the batch: what does not grow with the loaves
  Cash load;               ///< of one oven load, within `fixed`; nothing where all bake at once
  int loaves_a_load = 0;   ///< 0: all at once, or as the meter said
  Cash monthly;            ///< overhead of a month
  Cash overhead_of_month;  ///< of the batch: its share of that
  Cash work;               ///< of the batch
  Time worked;             ///< of the batch
  int pieces = 0;
  std::int64_t sold_millionths = 0;  ///< loaves of the batch that can be sold, in millionths
  Mass loaf;                         ///< baked
  std::vector<Yield> yields;
  std::vector<std::string> not_counted;  ///< what the price file does not say, in words

  /// Loaves of the batch that can be sold.
  [[nodiscard]] double sold() const { return static_cast<double>(sold_millionths) / 1e6; }
};

/// Errors: bad_input (a bake without pieces, an ingredient without a price, a price in another
/// currency, a volume of what has no known density).
[[nodiscard]] Result<Costing> cost(const formula::Bake& bake, const PriceList& prices);

/// What a change does to a loaf.
struct Effect {
  std::string part;
  std::string change;  ///< "costs 10 % more"
  Cash loaf;           ///< more for each loaf; below zero when it gets cheaper
  Cash kilogram;       ///< more for each kilogram of bread
};

/// Every part changed on its own and the whole bake costed again: each price and time a tenth up,
/// each loss a percentage point up, one loaf more in the batch. Largest first.
[[nodiscard]] Result<std::vector<Effect>> effects(const formula::Bake& bake,
                                                  const PriceList& prices);

/// The mass of an ingredient in one package. Errors: bad_input where a volume has no density.
[[nodiscard]] Result<Mass> package_mass(const Package& package,
                                        const formula::Portion& portion,
                                        const larder::Composition& composition);

/// The same prices with one ingredient's packages up by so much each.
[[nodiscard]] PriceList with_price_rise(PriceList prices,
                                        const larder::Ingredient& ingredient,
                                        Cash by);

}  // namespace barm::shop

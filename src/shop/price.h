#pragma once
// What to ask for a loaf, and what is left of it.
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "shop/cost.h"

namespace barm::shop {

/// A price and all that follows from it.
struct Offer {
  std::string basis;  ///< "margin 60 %"
  Cash net;           ///< without tax
  Cash tax;
  Cash shelf;                   ///< with tax, a whole multiple of the step: net + tax to the cent
  Cash profit;                  ///< net less cost
  double margin = 0;            ///< profit over net
  double mark_up = 0;           ///< profit over cost
  std::optional<Cash> an_hour;  ///< what an hour of work earns, its own wage included
  std::optional<Cash> slice;    ///< shelf price of a slice
  Cash wholesale;               ///< net, to a shop that sells on
  Cash wholesale_profit;
  /// Loaves of one batch that must be sold before its fixed cost is earned; empty when none would.
  std::optional<std::int64_t> break_even_batch;
  /// Loaves of a month that must be sold before the month's overhead is earned.
  std::optional<std::int64_t> break_even_month;
};

/// An offer at a net price. The shelf price is the net price with tax, raised to the next multiple
/// of the price file's step; net and tax are then what that shelf price holds (equations 7 to 10 of
/// docs/model/shop.md):
///
///     margin m: net = cost / (1 - m)        mark-up k: net = cost (1 + k)
///     hourly pay w: net = cost without work + w * hours / loaves
///     break-even: the first n with n (net * sold share - varying cost of a loaf)
///                 >= fixed + load * loads of n loaves
[[nodiscard]] Offer offer_at(const Costing& costing,
                             const PriceList& prices,
                             Cash net,
                             std::string basis);

/// The same at a price on the shelf, tax included.
[[nodiscard]] Offer offer_on_the_shelf(const Costing& costing,
                                       const PriceList& prices,
                                       Cash shelf,
                                       std::string basis);

/// One offer for each way the price file names: margin, mark-up, hourly pay, today's price. With
/// none of them the price that only earns its cost.
[[nodiscard]] std::vector<Offer> offers(const Costing& costing, const PriceList& prices);

/// What it does when a bottle costs more.
struct PriceRise {
  std::string drink;
  Cash by;    ///< each bottle
  Cash loaf;  ///< more for a loaf
  std::optional<Cash> slice;
  Cash shelf;  ///< more on the shelf, tax included, if the margin is to stay; not rounded up
  std::optional<Cash> shelf_slice;
};

/// Errors: those of cost().
[[nodiscard]] Result<PriceRise> price_rise(const formula::Bake& bake,
                                           const PriceList& prices,
                                           const larder::Ingredient& drink,
                                           Cash by,
                                           const Offer& offer);

}  // namespace barm::shop

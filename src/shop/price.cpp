#include "shop/price.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "shop/internal/say.h"

namespace barm::shop {

namespace {

std::int64_t millionths(double share) { return std::llround(share * 1e6); }

Cash with_tax(Cash net, const PriceList& prices) {
  return net.times(million + millionths(prices.tax.on_bread), million);
}

double ratio(Cash a, Cash b) {
  return static_cast<double>(a.billionths()) / static_cast<double>(b.billionths());
}

/// ceil(a / b), b > 0.
std::int64_t times_into(Cash a, Cash b) {
  const Wide n = (a.billionths() + b.billionths() - 1) / b.billionths();
  return static_cast<std::int64_t>(std::max<Wide>(0, n));
}

/// Cost of one more loaf: what neither the batch nor the month pays.
Cash varying(const Costing& costing) {
  return (costing.all.batch - costing.fixed - costing.overhead_of_month).shared_by(costing.pieces);
}

/// Loads that so many loaves take.
std::int64_t loads_of(std::int64_t loaves, const Costing& costing) {
  return costing.loaves_a_load > 0 ? (loaves + costing.loaves_a_load - 1) / costing.loaves_a_load
                                   : 0;
}

/// The first n with n * earned >= fixed + load * loads(n): the oven is heated for each load begun.
std::optional<std::int64_t> first_that_earns(const Costing& costing, Cash earned) {
  if (earned <= Cash()) return std::nullopt;
  const std::int64_t now = loads_of(costing.pieces, costing);
  const Cash fixed = costing.fixed - costing.load.times(now, 1);
  if (costing.loaves_a_load == 0) return times_into(fixed, earned);
  constexpr std::int64_t most_loads = 100'000;
  for (std::int64_t loads = 1; loads <= most_loads; ++loads) {
    const std::int64_t from = (loads - 1) * costing.loaves_a_load + 1;
    const std::int64_t n = std::max(from, times_into(fixed + costing.load.times(loads, 1), earned));
    if (n <= loads * costing.loaves_a_load) return n;
    if (earned.times(costing.loaves_a_load, 1) <= costing.load) return std::nullopt;
  }
  return std::nullopt;
}

void fill_break_even(const Costing& costing, Offer& offer) {
  const Cash earned =
      offer.net.times(costing.sold_millionths, million * costing.pieces) - varying(costing);
  offer.break_even_batch = first_that_earns(costing, earned);
  const Cash left =
      offer.net -
      (costing.all.batch - costing.overhead_of_month).times(million, costing.sold_millionths);
  if (left > Cash()) offer.break_even_month = times_into(costing.monthly, left);
}

/// What the batch earns, its wages included, over the hours worked.
std::optional<Cash> an_hour(const Costing& costing, Cash net) {
  const std::int64_t ms = std::llround(1000 * costing.worked.in(second));
  if (ms <= 0) return std::nullopt;
  constexpr std::int64_t ms_in_hour = 3'600'000;
  const Cash earned =
      net.times(costing.sold_millionths, million) - (costing.all.batch - costing.work);
  return earned.times(ms_in_hour, ms);
}

}  // namespace

Offer offer_on_the_shelf(const Costing& costing,
                         const PriceList& prices,
                         Cash shelf,
                         std::string basis) {
  Offer offer;
  offer.basis = std::move(basis);
  offer.shelf = shelf;
  const Cash exact = offer.shelf.times(million, million + millionths(prices.tax.on_bread));
  offer.net = Cash::from_minor(exact.minor());
  offer.tax = offer.shelf - offer.net;
  offer.profit = offer.net - costing.all.loaf;
  if (offer.net > Cash()) offer.margin = ratio(offer.profit, offer.net);
  if (costing.all.loaf > Cash()) offer.mark_up = ratio(offer.profit, costing.all.loaf);
  offer.an_hour = an_hour(costing, offer.net);
  if (prices.selling.slices > 0) offer.slice = offer.shelf.shared_by(prices.selling.slices);
  offer.wholesale = Cash::from_minor(offer.net.scaled(1 - prices.selling.wholesale_off).minor());
  offer.wholesale_profit = offer.wholesale - costing.all.loaf;
  fill_break_even(costing, offer);
  return offer;
}

Offer offer_at(const Costing& costing, const PriceList& prices, Cash net, std::string basis) {
  const Cash step = prices.selling.step.value_or(Cash::from_minor(1));
  return offer_on_the_shelf(
      costing, prices, with_tax(net, prices).raised_to(step), std::move(basis));
}

std::vector<Offer> offers(const Costing& costing, const PriceList& prices) {
  const Selling& selling = prices.selling;
  const Cash loaf = costing.all.loaf;
  std::vector<Offer> out;
  if (selling.margin) {
    out.push_back(offer_at(costing,
                           prices,
                           loaf.times(million, million - millionths(*selling.margin)),
                           "margin " + internal::share(*selling.margin)));
  }
  if (selling.mark_up) {
    out.push_back(offer_at(costing,
                           prices,
                           loaf.times(million + millionths(*selling.mark_up), million),
                           "mark-up " + internal::share(*selling.mark_up)));
  }
  if (selling.hourly_pay && costing.worked.si() > 0) {
    constexpr std::int64_t ms_in_hour = 3'600'000;
    const Cash pay =
        selling.hourly_pay->times(std::llround(1000 * costing.worked.in(second)), ms_in_hour);
    out.push_back(
        offer_at(costing,
                 prices,
                 (costing.all.batch - costing.work + pay).times(million, costing.sold_millionths),
                 text(*selling.hourly_pay, prices.currency) + " an hour"));
  }
  if (selling.asked) {
    // As it is asked: not by way of the net price, whose rounding could raise it by a cent.
    out.push_back(offer_on_the_shelf(
        costing, prices, selling.asked->raised_to(Cash::from_minor(1)), "asked today"));
  }
  if (out.empty()) out.push_back(offer_at(costing, prices, loaf, "no profit"));
  return out;
}

Result<PriceRise> price_rise(const formula::Bake& bake,
                             const PriceList& prices,
                             const larder::Ingredient& drink,
                             Cash by,
                             const Offer& offer) {
  const auto before = cost(bake, prices);
  if (!before) return failure(before);
  const auto after = cost(bake, with_price_rise(prices, drink, by));
  if (!after) return failure(after);
  PriceRise out;
  out.drink = drink.name;
  out.by = by;
  out.loaf = after->all.loaf - before->all.loaf;
  const double kept = offer.margin < 1 ? 1 / (1 - std::max(0.0, offer.margin)) : 1;
  out.shelf = with_tax(out.loaf.scaled(kept), prices);
  if (prices.selling.slices > 0) {
    out.slice = out.loaf.shared_by(prices.selling.slices);
    out.shelf_slice = out.shelf.shared_by(prices.selling.slices);
  }
  return out;
}

}  // namespace barm::shop

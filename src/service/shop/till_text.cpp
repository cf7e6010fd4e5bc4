// The till's answer as JSON and as CSV.
#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "service/internal/object.h"
#include "service/shop/till.h"
#include "shop/csv.h"

namespace barm::service {

using internal::object;
using nlohmann::json;
using shop::Cash;

namespace {

constexpr int exact_decimals = 4;

/// Money as a text in the currency's own unit: "4.17", rounded to cents.
std::string money(Cash cash, const shop::Currency& currency) {
  return shop::digits_of(cash, currency);
}

std::string exact(Cash cash, const shop::Currency& currency) {
  return shop::digits_of(cash, currency, exact_decimals);
}

std::string shown(std::int64_t minor, const shop::Currency& currency) {
  return shop::digits_of(Cash::from_minor(minor), currency);
}

json part_of(const shop::CostPart& part, const shop::Currency& currency) {
  json out = object({{"name", part.name},
                     {"words", part.words},
                     {"batch", shown(part.shown_batch, currency)},
                     {"loaf", shown(part.shown_loaf, currency)},
                     {"batch_exact", exact(part.batch, currency)},
                     {"loaf_exact", exact(part.loaf, currency)},
                     {"mass_g", part.mass ? json(part.mass->in(gram)) : json(nullptr)},
                     {"gram_exact", nullptr}});
  if (part.mass && part.mass->si() > 0) {
    const auto mg = std::int64_t{std::llround(part.mass->in(milligram))};
    if (mg > 0) out["gram_exact"] = shop::digits_of(part.batch.times(1000, mg), currency, 6);
  }
  out["parts"] = json::array();
  for (const shop::CostPart& one : part.parts) out["parts"].push_back(part_of(one, currency));
  return out;
}

json or_null(const std::optional<Cash>& cash, const shop::Currency& currency) {
  return cash ? json(money(*cash, currency)) : json(nullptr);
}

json or_null(const std::optional<std::int64_t>& count) {
  return count ? json(*count) : json(nullptr);
}

json offer_of(const shop::Offer& offer, const shop::Currency& currency) {
  return object({{"basis", offer.basis},
                 {"net", money(offer.net, currency)},
                 {"tax", money(offer.tax, currency)},
                 {"shelf", money(offer.shelf, currency)},
                 {"profit", money(offer.profit, currency)},
                 {"margin", offer.margin},
                 {"mark_up", offer.mark_up},
                 {"an_hour", or_null(offer.an_hour, currency)},
                 {"slice", or_null(offer.slice, currency)},
                 {"wholesale_net", money(offer.wholesale, currency)},
                 {"wholesale_profit", money(offer.wholesale_profit, currency)},
                 {"break_even_loaves_of_batch", or_null(offer.break_even_batch)},
                 {"break_even_loaves_of_month", or_null(offer.break_even_month)}});
}

json plan_of(const shop::BottlePlan& plan,
             const std::vector<std::string>& sizes,
             const shop::Currency& currency) {
  json bottles = json::array();
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    bottles.push_back(object({{"size", sizes[i]}, {"count", plan.bottles[i]}}));
  }
  return object({{"loaves", plan.loaves},
                 {"bottles", bottles},
                 {"rest_mL", static_cast<double>(plan.rest_tenths) / 10},
                 {"price", money(plan.price, currency)},
                 {"rest", money(plan.rest, currency)},
                 {"loaf", money(plan.loaf, currency)}});
}

json bottles_of(const shop::DrinkInBottles& drink, const shop::Currency& currency) {
  json out = object({{"drink", drink.drink},
                     {"loaf_mL", drink.loaf.in(millilitre)},
                     {"looked_at_loaves", drink.most},
                     {"this_batch", plan_of(drink.batch, drink.sizes, currency)},
                     {"cheapest", plan_of(drink.cheapest, drink.sizes, currency)},
                     {"whole", nullptr}});
  if (!drink.whole.empty()) out["whole"] = plan_of(drink.whole.front(), drink.sizes, currency);
  return out;
}

json buyers_of(const shop::Buyers& buyers, const shop::Currency& currency) {
  json shares = json::array();
  for (const shop::Share& share : buyers.shares) {
    shares.push_back(object({{"price", money(share.price, currency)},
                             {"asked", share.asked},
                             {"yes", share.yes},
                             {"share", share.share},
                             {"share_p10", share.low},
                             {"share_p90", share.high},
                             {"falling_share", share.falling},
                             {"profit_of_100_people", money(share.profit, currency)}}));
  }
  json out = object({{"people", buyers.people},
                     {"shares", shares},
                     {"too_few", buyers.too_few},
                     {"word", buyers.word},
                     {"best", nullptr}});
  if (buyers.shares.empty()) return out;
  const auto price = [&](std::size_t i) { return money(buyers.shares[i].price, currency); };
  out["best"] = object({{"price", price(buyers.best)},
                        {"p10", price(buyers.best_low)},
                        {"p90", price(buyers.best_high)},
                        {"p025", price(buyers.wide_low)},
                        {"p975", price(buyers.wide_high)},
                        {"at_the_edge", buyers.at_the_edge}});
  return out;
}

void add_part(shop::CsvText& csv,
              const shop::CostPart& part,
              const std::string& under,
              const shop::Currency& currency) {
  const std::string name = under.empty() ? part.name : under + " / " + part.name;
  csv.line({"cost",
            name,
            part.words,
            part.mass ? fmt::format("{:.3f}", part.mass->in(gram)) : "",
            shown(part.shown_batch, currency),
            shown(part.shown_loaf, currency),
            exact(part.loaf, currency)});
  for (const shop::CostPart& one : part.parts) add_part(csv, one, name, currency);
}

}  // namespace

json to_json(const TillAnswer& answer) {
  const shop::Currency& currency = answer.prices.currency;
  json out = object(
      {{"schema", "barm.till/2"},
       {"name", answer.name},
       {"prices", answer.prices.name},
       {"currency", currency.code},
       {"minor_digits", currency.digits},
       {"prices_from", answer.prices.oldest()},
       {"prices_to", answer.prices.newest()},
       {"tax",
        object({{"name", answer.prices.tax.name}, {"on_bread", answer.prices.tax.on_bread}})},
       {"loaves", answer.costing.pieces},
       {"loaves_sold", answer.costing.sold()},
       {"loaf_g", answer.costing.loaf.in(gram)},
       {"worked_h", answer.costing.worked.in(hour)},
       {"slices", answer.prices.selling.slices},
       {"cost", part_of(answer.costing.all, currency)},
       {"fixed", money(answer.costing.fixed, currency)},
       {"not_counted", answer.costing.not_counted},
       {"doubts", answer.doubts}});
  out["yields"] = json::array();
  for (const shop::Yield& one : answer.costing.yields) {
    out["yields"].push_back(object({{"step", one.step},
                                    {"before_g", one.before.in(gram)},
                                    {"after_g", one.after.in(gram)},
                                    {"loaves_before", one.loaves_before},
                                    {"loaves_after", one.loaves_after},
                                    {"sunk", money(one.sunk, currency)}}));
  }
  out["effects"] = json::array();
  for (const shop::Effect& one : answer.effects) {
    out["effects"].push_back(object({{"part", one.part},
                                     {"change", one.change},
                                     {"loaf_exact", exact(one.loaf, currency)},
                                     {"kilogram_exact", exact(one.kilogram, currency)}}));
  }
  out["offers"] = json::array();
  for (const shop::Offer& one : answer.offers) out["offers"].push_back(offer_of(one, currency));
  out["bottles"] = json::array();
  for (const auto& one : answer.bottles) out["bottles"].push_back(bottles_of(one, currency));
  out["price_rises"] = json::array();
  for (const shop::PriceRise& one : answer.price_rises) {
    out["price_rises"].push_back(
        object({{"drink", one.drink},
                {"bottle", money(one.by, currency)},
                {"loaf_exact", exact(one.loaf, currency)},
                {"slice_exact", one.slice ? json(exact(*one.slice, currency)) : json()},
                {"shelf_exact", exact(one.shelf, currency)},
                {"shelf_slice_exact",
                 one.shelf_slice ? json(exact(*one.shelf_slice, currency)) : json()}}));
  }
  out["buyers"] = answer.buyers ? buyers_of(*answer.buyers, currency) : json(nullptr);
  return out;
}

std::string to_csv(const TillAnswer& answer) {
  const shop::Currency& currency = answer.prices.currency;
  shop::CsvText csv;
  csv.line({"kind",
            "part of " + answer.name,
            "how",
            "grams",
            "batch " + currency.code,
            "loaf " + currency.code,
            "loaf exact " + currency.code});
  add_part(csv, answer.costing.all, "", currency);
  for (const shop::Effect& one : answer.effects) {
    csv.line({"effect", one.part, one.change, "", "", "", exact(one.loaf, currency)});
  }
  for (const shop::Offer& one : answer.offers) {
    csv.line({"net price", one.basis, "", "", "", money(one.net, currency), ""});
    csv.line({"shelf price", one.basis, "", "", "", money(one.shelf, currency), ""});
    csv.line({"wholesale", one.basis, "", "", "", money(one.wholesale, currency), ""});
    csv.line({"profit to shops", one.basis, "", "", "", money(one.wholesale_profit, currency), ""});
  }
  return csv.text();
}

}  // namespace barm::service

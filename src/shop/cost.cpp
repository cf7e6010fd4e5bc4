#include "shop/cost.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/require.h"
#include "larder/composition.h"
#include "shop/internal/say.h"
#include "shop/internal/starter.h"

namespace barm::shop {

using formula::Bake;
using formula::Portion;
using internal::clock;
using internal::grams;
using internal::microgram;
using internal::share;
using larder::Composition;

namespace {

std::int64_t micrograms(Mass mass) { return std::llround(mass.in(microgram)); }

std::int64_t milliseconds(Time time) { return std::llround(1000 * time.in(second)); }

/// A share in billionths that is left when `lost` is taken off.
std::int64_t left_billionths(double lost) { return std::llround((1 - lost) * 1e9); }

CostPart leaf(std::string name, std::string words, Cash batch) {
  CostPart part;
  part.name = std::move(name);
  part.words = std::move(words);
  part.batch = batch;
  return part;
}

void add(CostPart& whole, CostPart part) {
  whole.batch += part.batch;
  whole.parts.push_back(std::move(part));
}

// --- what is bought ---

/// A thing that is weighed into the bowl.
struct Bought {
  std::string name;
  const Portion* portion;
  Mass mass;
  Composition composition;
};

class Pricing {
 public:
  Pricing(const Bake& bake, const PriceList& prices) : bake_(bake), prices_(prices) {}

  Result<CostPart> of(const Bought& bought) {
    const auto packages = prices_.packages_of(bought.portion->ingredient);
    if (!packages.empty()) return by_package(bought, *packages.front());
    if (packages.empty() && !bought.portion->made_of.empty()) return prepared(bought);
    if (bought.portion->price) return by_bottle(bought);
    if (bought.portion->ingredient.group == larder::Group::water) return free_water(bought);
    return failure(ErrorCode::bad_input, prices_.file, no_price(bought));
  }

  [[nodiscard]] std::vector<std::string> words() const { return words_; }

 private:
  [[nodiscard]] static std::string no_price(const Bought& bought) {
    return fmt::format(
        "has no price for \"{0}\": add [[buy]] with what = \"{0}\", size = \"1 kg\" and "
        "price = \"1.20 EUR\"",
        bought.portion->ingredient.name);
  }

  Result<CostPart> by_package(const Bought& bought, const Package& package) {
    const auto holds = package_mass(package, *bought.portion, bought.composition);
    if (!holds) return failure(holds);
    const Cash in_bowl = package.net.times(micrograms(bought.mass), micrograms(*holds));
    CostPart part = leaf(
        bought.name,
        fmt::format(
            "{}, {} at {}", grams(bought.mass), package.size, text(package.paid, prices_.currency)),
        Cash());
    part.mass = bought.mass;
    std::vector<CostPart> parts;
    parts.push_back(leaf("in the bowl", grams(bought.mass), in_bowl));
    const std::int64_t left = left_billionths(package.waste);
    if (package.waste > 0) {
      parts.push_back(leaf("wasted",
                           share(package.waste) + " never gets into a bowl",
                           in_bowl.times(Cash::billion, left) - in_bowl));
    }
    const Mass drawn = bought.mass * (1 / (1 - package.waste));
    if (package.deposit > Cash() && package.comes_back < 1) {
      parts.push_back(leaf("deposit",
                           share(1 - package.comes_back) + " of the empties do not go back",
                           empties(package, drawn, *holds).scaled(1 - package.comes_back)));
    }
    if (package.rest_is_lost) parts.push_back(opened_rest(package, drawn, *holds));
    if (parts.size() == 1) {
      part.batch = in_bowl;
      return part;
    }
    for (CostPart& one : parts) add(part, std::move(one));
    return part;
  }

  /// Deposit of the bottles used: of whole ones where the rest is poured away, else of the part
  /// that was drawn, for the rest bears its own share another day.
  static Cash empties(const Package& package, Mass drawn, Mass holds) {
    const std::int64_t needed = micrograms(drawn);
    const std::int64_t one = micrograms(holds);
    if (!package.rest_is_lost) return package.deposit.times(needed, one);
    return package.deposit.times((needed + one - 1) / one, 1);
  }

  /// What the last bottle still holds when the batch has what it needs.
  static CostPart opened_rest(const Package& package, Mass drawn, Mass holds) {
    const std::int64_t needed = micrograms(drawn);
    const std::int64_t one = micrograms(holds);
    const std::int64_t rest = (one - needed % one) % one;
    return leaf("rest of the last one",
                grams(static_cast<double>(rest) * microgram) + " poured away",
                package.net.times(rest, one));
  }

  /// A drink that was prepared costs what went into it.
  Result<CostPart> prepared(const Bought& bought) {
    CostPart whole = leaf(bought.name, grams(bought.mass) + ", as what it was made of", Cash());
    whole.mass = bought.mass;
    for (const formula::MadeOf& from : bought.portion->made_of) {
      const auto settled = larder::typical(from.ingredient);
      if (!settled) return failure(settled);
      Portion portion = *bought.portion;
      portion.ingredient = from.ingredient;
      portion.price = from.price;
      portion.currency = from.currency;
      portion.made_of.clear();
      auto part = of({from.ingredient.name, &portion, from.needs * bought.mass, *settled});
      if (!part) return part;
      add(whole, *std::move(part));
    }
    words_.push_back(fmt::format("{}: gas or current of the stove", bought.name));
    return whole;
  }

  Result<CostPart> by_bottle(const Bought& bought) {
    if (bought.portion->currency != prices_.currency.code) {
      return failure(ErrorCode::bad_input,
                     bought.portion->place,
                     fmt::format("the bake's own price is in {}, the price file's in {}: write one "
                                 "currency in both",
                                 bought.portion->currency,
                                 prices_.currency.code));
    }
    words_.push_back(
        fmt::format("{}: the price stands in the bake file, without a date", bought.name));
    const Tax& tax = prices_.tax;
    if (tax.reclaimed && !tax.in_bottles) {
      words_.push_back(fmt::format(
          "{}: the bake file's price is taken as net of tax; write bottles = \"19 %\" in [tax] "
          "where the tax is in it",
          bought.name));
    }
    const double with_tax = 1 + (tax.reclaimed ? tax.in_bottles.value_or(0) : 0);
    CostPart part =
        leaf(bought.name,
             grams(bought.mass) + ", price of the bake file",
             Cash::from_number(*bought.portion->price * bought.mass.in(kilogram) / with_tax,
                               prices_.currency));
    part.mass = bought.mass;
    return part;
  }

  Result<CostPart> free_water(const Bought& bought) {
    const std::string free = bought.name + ": no price, so it is counted as free";
    if (std::find(words_.begin(), words_.end(), free) == words_.end()) words_.push_back(free);
    CostPart part = leaf(bought.name, grams(bought.mass) + ", counted as free", Cash());
    part.mass = bought.mass;
    return part;
  }

  const Bake& bake_;
  const PriceList& prices_;
  std::vector<std::string> words_;
};

/// The flour a starter is fed: the levain's own, else the first of the bowl.
Portion flour_of_the_levain(const Bake& bake) {
  Portion flour;
  for (const Portion& portion : bake.bowl) {
    const bool same = !bake.levain || portion.ingredient.key == bake.levain->flour.key;
    if (portion.ingredient.is_flour() && same) return portion;
  }
  if (bake.levain) flour.ingredient = bake.levain->flour;
  return flour;
}

Portion water_of_the_levain(const Bake& bake) {
  for (const Portion& portion : bake.bowl) {
    if (portion.ingredient.group == larder::Group::water) return portion;
  }
  Portion water;
  water.ingredient.name = "water";
  water.ingredient.key = "water";
  water.ingredient.group = larder::Group::water;
  return water;
}

/// Of so much poolish or biga the yeast; of a sourdough none.
Mass yeast_of_the_levain(const Bake& bake, Mass mass) {
  if (!bake.levain || !bake.levain->yeasted()) return Mass{};
  const formula::Levain& levain = *bake.levain;
  return mass * (levain.ripe / (levain.ripe + levain.fresh_flour + levain.water));
}

/// A levain is the flour and the water that were fed to it, all the way back; a poolish or biga its
/// yeast too.
Result<CostPart> levain(const Bake& bake,
                        const std::string& name,
                        Mass mass,
                        const Composition& composition,
                        Pricing& pricing) {
  const double hydration = composition[larder::Property::hydration];
  const Mass flour = mass * (1 / (1 + hydration));
  const Mass yeast = yeast_of_the_levain(bake, mass);
  std::vector<std::pair<Portion, Mass>> fed{{flour_of_the_levain(bake), flour},
                                            {water_of_the_levain(bake), mass - flour - yeast}};
  if (yeast > Mass{}) {
    Portion& of_yeast = fed.emplace_back(Portion{}, yeast).first;
    of_yeast.ingredient = bake.levain->starter;
  }
  CostPart part = leaf(name,
                       grams(mass) + (yeast > Mass{} ? ", as its flour, water and yeast"
                                                     : ", as the flour and water fed to it"),
                       Cash());
  part.mass = mass;
  for (const auto& [portion, weight] : fed) {
    const auto settled = larder::typical(portion.ingredient);
    if (!settled) return failure(settled);
    auto one = pricing.of({portion.ingredient.name, &portion, weight, *settled});
    if (!one) return one;
    add(part, *std::move(one));
  }
  return part;
}

Result<CostPart> ingredients(const Bake& bake,
                             const formula::Bowl& bowl,
                             const std::vector<Composition>& settled,
                             Pricing& pricing) {
  CostPart whole = leaf("ingredients", grams(bowl.dough) + " in the bowl", Cash());
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    const formula::Weighed& line = bowl.lines[i];
    const bool starter = internal::is_starter(bake.bowl[i]);
    auto part = starter ? levain(bake, line.name, line.actual, settled[i], pricing)
                        : pricing.of({line.name, &bake.bowl[i], line.actual, settled[i]});
    if (!part) return part;
    add(whole, *std::move(part));
  }
  return whole;
}

// --- work, oven, wrapping, overhead ---

Cash wage(const WorkStep& step, const PriceList& prices, Time time) {
  constexpr std::int64_t an_hour = 3'600'000;
  return step.hourly.value_or(prices.hourly).times(milliseconds(time), an_hour);
}

CostPart work(const PriceList& prices, Costing& costing) {
  CostPart whole = leaf("work", "", Cash());
  for (const WorkStep& step : prices.steps) {
    const Time by_loaf = costing.pieces * step.per_loaf;
    const Cash fixed = wage(step, prices, step.per_batch);
    const Cash varying = wage(step, prices, by_loaf);
    CostPart part = leaf(step.name,
                         clock(step.per_batch + by_loaf) + " at " +
                             text(step.hourly.value_or(prices.hourly), prices.currency),
                         Cash());
    if (step.per_batch.si() > 0 && step.per_loaf.si() > 0) {
      add(part, leaf("by the batch", clock(step.per_batch), fixed));
      add(part, leaf("by the loaf", clock(step.per_loaf) + " each", varying));
    } else {
      part.batch = fixed + varying;
    }
    costing.fixed += fixed;
    costing.worked = costing.worked + step.per_batch + by_loaf;
    add(whole, std::move(part));
  }
  whole.words = clock(costing.worked);
  costing.work = whole.batch;
  return whole;
}

CostPart oven(const Oven& oven, const PriceList& prices, Costing& costing) {
  const auto price = text(oven.per_kilowatt_hour, prices.currency, 2) + " / kWh";
  if (oven.metered) {
    const Cash cash = oven.per_kilowatt_hour.scaled(*oven.metered);
    costing.fixed += cash;
    return leaf("oven", fmt::format("{:g} kWh as metered, {}", *oven.metered, price), cash);
  }
  const int loads =
      oven.loaves_a_load > 0 ? (costing.pieces + oven.loaves_a_load - 1) / oven.loaves_a_load : 1;
  const double heating = oven.kilowatts * oven.preheat.in(hour);
  const double baking = oven.kilowatts * oven.duty * loads * oven.bake.in(hour);
  CostPart whole = leaf("oven", fmt::format("{:.3g} kWh, {}", heating + baking, price), Cash());
  add(whole,
      leaf("preheat",
           fmt::format("{} at {:g} kW", clock(oven.preheat), oven.kilowatts),
           oven.per_kilowatt_hour.scaled(heating)));
  add(whole,
      leaf("bake",
           fmt::format("{} {} of {}", loads, loads == 1 ? "load" : "loads", clock(oven.bake)),
           oven.per_kilowatt_hour.scaled(baking)));
  if (oven.loaves_a_load > 0) {
    costing.loaves_a_load = oven.loaves_a_load;
    costing.load = oven.per_kilowatt_hour.scaled(oven.kilowatts * oven.duty * oven.bake.in(hour));
  }
  costing.fixed += whole.batch;
  return whole;
}

CostPart wrapping(const PriceList& prices, const Costing& costing) {
  CostPart whole = leaf("wrapping", "", Cash());
  for (const Wrapping& one : prices.wrappings) {
    add(whole,
        leaf(one.what,
             fmt::format("{} of them at {}", one.holds, text(one.net, prices.currency)),
             one.net.times(one.per_loaf_millionths * costing.pieces, one.holds * million)));
  }
  return whole;
}

CostPart overhead(const PriceList& prices, Costing& costing) {
  CostPart whole = leaf("overhead", "", Cash());
  for (const Overhead& one : prices.overheads) {
    if (!one.monthly) {
      costing.fixed += one.net;
      add(whole, leaf(one.what, "by the batch", one.net));
      continue;
    }
    const std::int64_t loaves = prices.selling.loaves_a_month;
    const Cash batch = one.net.times(costing.sold_millionths, million).shared_by(loaves);
    costing.monthly += one.net;
    costing.overhead_of_month += batch;
    add(whole,
        leaf(one.what,
             fmt::format("{} a month over {} loaves", text(one.net, prices.currency), loaves),
             batch));
  }
  return whole;
}

// --- the whole ---

void fill_loaf(CostPart& part, std::int64_t sold_millionths) {
  Cash sum;
  for (CostPart& one : part.parts) {
    fill_loaf(one, sold_millionths);
    sum += one.loaf;
  }
  part.loaf = part.parts.empty() ? part.batch.times(million, sold_millionths) : sum;
}

void show(CostPart& part) {
  std::vector<Cash> batch;
  std::vector<Cash> loaf;
  for (const CostPart& one : part.parts) {
    batch.push_back(one.batch);
    loaf.push_back(one.loaf);
  }
  const auto shown_batch = shown_parts(batch, part.shown_batch);
  const auto shown_loaf = shown_parts(loaf, part.shown_loaf);
  for (std::size_t i = 0; i < part.parts.size(); ++i) {
    part.parts[i].shown_batch = shown_batch[i];
    part.parts[i].shown_loaf = shown_loaf[i];
    show(part.parts[i]);
  }
}

std::int64_t sold_millionths(const PriceList& prices, int pieces) {
  double sold = pieces;
  for (const WorkStep& step : prices.steps) sold *= 1 - step.lost;
  return std::max<std::int64_t>(1, std::llround(1e6 * sold));
}

std::vector<Yield> yields(const Bake& bake,
                          const formula::Bowl& bowl,
                          const PriceList& prices,
                          Cash all) {
  const Mass pieces = bowl.dough * (1 - bake.handling_loss);
  const Mass baked = pieces * (1 - bake.bake_loss);
  const double loaves = bowl.pieces;
  std::vector<Yield> out;
  out.push_back({"bowl to pieces", bowl.dough, pieces, loaves, loaves, Cash()});
  out.push_back({"bake", pieces, baked, loaves, loaves, Cash()});
  double left = loaves;
  Mass mass = baked;
  for (const WorkStep& step : prices.steps) {
    if (step.lost <= 0) continue;
    const double after = left * (1 - step.lost);
    const Mass mass_after = mass * (1 - step.lost);
    out.push_back({step.name, mass, mass_after, left, after, all.scaled((left - after) / loaves)});
    left = after;
    mass = mass_after;
  }
  return out;
}

void say_what_is_missing(const PriceList& prices, Costing& costing) {
  auto& words = costing.not_counted;
  if (prices.steps.empty()) words.emplace_back("work: the price file has no [[work.step]]");
  if (!prices.oven) words.emplace_back("the oven: the price file has no [oven]");
  if (prices.wrappings.empty()) words.emplace_back("wrapping: the price file has no [[wrap]]");
  if (prices.overheads.empty()) words.emplace_back("overhead: the price file has no [[overhead]]");
}

}  // namespace

Result<Mass> package_mass(const Package& package,
                          const Portion& portion,
                          const Composition& composition) {
  if (package.mass) return *package.mass;
  const bool known =
      portion.ingredient.is_liquid() || portion.ingredient[larder::Property::density].has_value();
  if (!known || composition.density().si() <= 0) {
    return failure(ErrorCode::bad_input,
                   package.place,
                   fmt::format("the density of \"{}\" is not known: give the size by weight",
                               portion.ingredient.name));
  }
  return *package.volume * composition.density();
}

Result<Costing> cost(const Bake& bake, const PriceList& prices) {
  if (!bake.pieces) {
    return failure(ErrorCode::bad_input,
                   bake.file,
                   "does not say how many loaves it makes: write pieces = 6 and piece = \"900 g\"");
  }
  const auto settled = formula::settle(bake);
  if (!settled) return failure(settled);
  const auto bowl = formula::in_the_bowl(bake, *settled);
  if (!bowl) return failure(bowl);
  Costing costing;
  costing.pieces = bowl->pieces;
  costing.sold_millionths = sold_millionths(prices, bowl->pieces);
  costing.loaf = bowl->dough * ((1 - bake.handling_loss) * (1 - bake.bake_loss) / bowl->pieces);
  Pricing pricing(bake, prices);
  auto bought = ingredients(bake, *bowl, *settled, pricing);
  if (!bought) return failure(bought);
  costing.all = leaf("the batch", fmt::format("{} loaves", costing.pieces), Cash());
  add(costing.all, *std::move(bought));
  if (!prices.steps.empty()) add(costing.all, work(prices, costing));
  if (prices.oven) add(costing.all, oven(*prices.oven, prices, costing));
  if (!prices.wrappings.empty()) add(costing.all, wrapping(prices, costing));
  if (!prices.overheads.empty()) add(costing.all, overhead(prices, costing));
  fill_loaf(costing.all, costing.sold_millionths);
  costing.all.shown_batch = costing.all.batch.minor();
  costing.all.shown_loaf = costing.all.loaf.minor();
  show(costing.all);
  costing.yields = yields(bake, *bowl, prices, costing.all.batch);
  costing.not_counted = pricing.words();
  say_what_is_missing(prices, costing);
  return costing;
}

PriceList with_price_rise(PriceList prices, const larder::Ingredient& ingredient, Cash by) {
  std::vector<const Package*> found = prices.packages_of(ingredient);
  for (Package& package : prices.packages) {
    const bool one = std::find(found.begin(), found.end(), &package) != found.end();
    if (!one || package.paid <= Cash()) continue;
    package.paid += by;
    package.net += by;
  }
  return prices;
}

}  // namespace barm::shop

// What a change of each part does to a loaf: the bake is costed again for each.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "shop/cost.h"

namespace barm::shop {

namespace {

constexpr std::int64_t ten = 10;

Cash a_tenth_up(Cash cash) { return cash.times(ten + 1, ten); }

constexpr const char* costs_more = "costs 10 % more";
constexpr const char* longer = "10 % longer";
constexpr double point = 0.01;

/// Cost of a kilogram of bread.
Cash of_kilogram(const Costing& costing) {
  const std::int64_t mg = std::llround(costing.loaf.in(milligram));
  constexpr std::int64_t mg_in_kilogram = 1'000'000;
  return costing.all.loaf.times(mg_in_kilogram, mg);
}

class Trial {
 public:
  Trial(const formula::Bake& bake, const PriceList& prices, const Costing& before)
      : bake_(bake), prices_(prices), before_(before) {}

  Result<bool> change(const std::string& part,
                      const std::string& change,
                      const formula::Bake& bake,
                      const PriceList& prices) {
    const auto after = cost(bake, prices);
    if (!after) return failure(after);
    Effect effect;
    effect.part = part;
    effect.change = change;
    effect.loaf = after->all.loaf - before_.all.loaf;
    effect.kilogram = of_kilogram(*after) - of_kilogram(before_);
    if (effect.loaf != Cash() || effect.kilogram != Cash()) effects.push_back(effect);
    return true;
  }

  Result<bool> prices(const std::string& part, const std::string& words, const PriceList& list) {
    return change(part, words, bake_, list);
  }

  Result<bool> bake(const std::string& part, const std::string& words, const formula::Bake& other) {
    return change(part, words, other, prices_);
  }

  std::vector<Effect> effects;

 private:
  const formula::Bake& bake_;
  const PriceList& prices_;
  const Costing& before_;
};

Result<bool> change_packages(const PriceList& prices, Trial& trial) {
  std::vector<std::string> done;
  for (const Package& package : prices.packages) {
    if (std::find(done.begin(), done.end(), package.what) != done.end()) continue;
    done.push_back(package.what);
    PriceList list = prices;
    for (Package& one : list.packages) {
      if (one.what != package.what) continue;
      one.net = a_tenth_up(one.net);
      one.paid = a_tenth_up(one.paid);
    }
    if (auto tried = trial.prices(package.what, costs_more, list); !tried) return tried;
  }
  return true;
}

Result<bool> change_work(const PriceList& prices, Trial& trial) {
  PriceList list = prices;
  list.hourly = a_tenth_up(list.hourly);
  for (WorkStep& step : list.steps) {
    if (step.hourly) step.hourly = a_tenth_up(*step.hourly);
  }
  if (auto tried = trial.prices("an hour of work", costs_more, list); !tried) return tried;
  for (std::size_t i = 0; i < prices.steps.size(); ++i) {
    list = prices;
    list.steps[i].per_batch = 1.1 * list.steps[i].per_batch;
    list.steps[i].per_loaf = 1.1 * list.steps[i].per_loaf;
    if (auto tried = trial.prices("work: " + list.steps[i].name, longer, list); !tried)
      return tried;
  }
  for (std::size_t i = 0; i < prices.steps.size(); ++i) {
    if (prices.steps[i].lost <= 0) continue;
    list = prices;
    list.steps[i].lost = std::min(0.9, list.steps[i].lost + point);
    const std::string part = "loaves lost: " + list.steps[i].name;
    if (auto tried = trial.prices(part, "1 in 100 more", list); !tried) return tried;
  }
  return true;
}

Result<bool> change_the_rest(const PriceList& prices, Trial& trial) {
  PriceList list = prices;
  if (list.oven) {
    list.oven->per_kilowatt_hour = a_tenth_up(list.oven->per_kilowatt_hour);
    if (auto tried = trial.prices("energy", costs_more, list); !tried) return tried;
  }
  list = prices;
  for (Wrapping& one : list.wrappings) one.net = a_tenth_up(one.net);
  if (auto tried = trial.prices("wrapping", costs_more, list); !tried) return tried;
  list = prices;
  for (Overhead& one : list.overheads) one.net = a_tenth_up(one.net);
  return trial.prices("overhead", costs_more, list);
}

/// A batch by weight has no other size than its own; one by pieces can be a loaf larger.
Result<bool> change_bake(const formula::Bake& bake, Trial& trial) {
  formula::Bake other = bake;
  other.handling_loss = std::min(0.9, bake.handling_loss + point);
  if (auto tried = trial.bake("handling loss", "1 % of the dough more", other); !tried)
    return tried;
  other = bake;
  other.bake_loss = std::min(0.9, bake.bake_loss + point);
  if (auto tried = trial.bake("bake loss", "1 % of the dough more", other); !tried) return tried;
  if (!bake.piece && !bake.baked_piece) return true;
  other = bake;
  other.pieces = *bake.pieces + 1;
  return trial.bake("one loaf more in the batch", "", other);
}

Wide size(Cash cash) { return cash.billionths() < 0 ? -cash.billionths() : cash.billionths(); }

}  // namespace

Result<std::vector<Effect>> effects(const formula::Bake& bake, const PriceList& prices) {
  const auto before = cost(bake, prices);
  if (!before) return failure(before);
  Trial trial(bake, prices, *before);
  if (auto done = change_packages(prices, trial); !done) return failure(done);
  if (auto done = change_work(prices, trial); !done) return failure(done);
  if (auto done = change_the_rest(prices, trial); !done) return failure(done);
  if (auto done = change_bake(bake, trial); !done) return failure(done);
  std::stable_sort(trial.effects.begin(),
                   trial.effects.end(),
                   [](const Effect& a, const Effect& b) { return size(a.loaf) > size(b.loaf); });
  return std::move(trial.effects);
}

}  // namespace barm::shop

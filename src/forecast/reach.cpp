#include "forecast/reach.h"

#include <algorithm>

#include "larder/larder.h"
#include "numerics/quantiles.h"

namespace barm::forecast {

namespace {

std::string keys(const formula::Bake& bake) {
  std::string out;
  for (const formula::Portion& portion : bake.bowl) {
    if (portion.ingredient.is_liquid()) out += (out.empty() ? "" : ", ") + portion.ingredient.name;
  }
  return out;
}

formula::Portion* find_drink(formula::Bake& bake, const std::string& words) {
  const larder::Ingredient* meant = larder::find(words);
  for (formula::Portion& portion : bake.bowl) {
    const bool same = portion.ingredient.name == words || portion.ingredient.key == words ||
                      (meant != nullptr && meant->key == portion.ingredient.key);
    if (same && portion.ingredient.is_liquid()) return &portion;
  }
  return nullptr;
}

formula::Portion* find_water(formula::Bake& bake) {
  for (formula::Portion& portion : bake.bowl) {
    if (portion.ingredient.group == larder::Group::water) return &portion;
  }
  return nullptr;
}

struct Outcome {
  Probability chance;
  std::optional<Time> middle;
};

Result<Outcome> outcome(const formula::Bake& bake, Time within, const Options& options) {
  Options until = options;
  until.curves = false;
  const auto hours = hours_to_ready(bake, until);
  if (!hours) return failure(hours);
  const double limit = within.in(hour);
  const auto in_time =
      std::count_if(hours->begin(), hours->end(), [&](double h) { return h <= limit; });
  const double middle = numerics::quantile(numerics::sorted(*hours), 0.5);
  Outcome result{Probability(static_cast<double>(in_time) / static_cast<double>(hours->size())),
                 std::nullopt};
  if (middle < options.horizon.in(hour) * 2) result.middle = middle * hour;
  return result;
}

}  // namespace

std::optional<std::string> main_drink(const formula::Bake& bake) {
  const formula::Portion* main = nullptr;
  double most = -1;
  for (const formula::Portion& portion : bake.bowl) {
    if (portion.ingredient.group != larder::Group::drink) continue;
    const auto& strength = portion.ingredient[larder::Property::strength];
    const double brings = (strength ? strength->typical : 0) + 1e-6 * portion.amount;
    if (brings <= most) continue;
    most = brings;
    main = &portion;
  }
  return main == nullptr ? std::nullopt : std::optional<std::string>(main->ingredient.name);
}

Poured poured(const formula::Bake& bake, const formula::Bowl& bowl, std::size_t line) {
  const auto of_the_liquid = [&](std::size_t i) {
    const formula::Measure measure = bake.bowl[i].measure;
    return measure == formula::Measure::of_liquid || measure == formula::Measure::rest_of_liquid;
  };
  const double mine = bowl.lines[line].actual.si();
  double water = 0;
  double all = 0;
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    const double here = bowl.lines[i].actual.si();
    if (bake.bowl[i].ingredient.group == larder::Group::water) water += here;
    // What the file calls the liquid, where it does.
    if (of_the_liquid(line) ? of_the_liquid(i)
                            : bake.bowl[i].ingredient.is_liquid() && !bake.bowl[i].levain)
      all += here;
  }
  const double both = mine + water;
  return {both > 0 ? mine / both : 0, all > 0 ? both / all : 1};
}

Result<formula::Bake> with_share(const formula::Bake& bake,
                                 const std::string& drink,
                                 double share) {
  formula::Bake changed = bake;
  if (find_drink(changed, drink) == nullptr) {
    return failure(ErrorCode::not_found,
                   bake.file,
                   "'" + drink + "' is not a liquid of this bowl. It holds: " + keys(bake));
  }
  const auto bowl = formula::in_the_bowl(bake);
  if (!bowl) return failure(bowl);
  // From here on everything is in grams, so that only the drink and the water change.
  for (std::size_t i = 0; i < changed.bowl.size(); ++i) {
    changed.bowl[i].measure = formula::Measure::mass;
    changed.bowl[i].amount = bowl->lines[i].actual.in(kilogram);
    changed.bowl[i].weighed.reset();
  }
  changed.pieces.reset();
  changed.piece.reset();
  changed.baked_piece.reset();
  changed.dough_total.reset();
  changed.flour_total.reset();
  changed.liquid_total = {};
  if (find_water(changed) == nullptr) {
    formula::Portion water;
    water.ingredient = *larder::find("water");
    water.measure = formula::Measure::mass;
    changed.bowl.push_back(water);
  }
  formula::Portion* poured = find_drink(changed, drink);
  formula::Portion* water = find_water(changed);
  const double both = poured->amount + water->amount;
  poured->amount = share * both;
  water->amount = (1 - share) * both;
  return changed;
}

Result<Reach> reach(const formula::Bake& bake,
                    const std::string& drink,
                    Time within,
                    Probability chance,
                    const Options& options) {
  if (!(chance.value() > 0 && chance.value() < 1)) {
    return failure(ErrorCode::bad_input, "chance", "a chance lies between 0 and 1, such as 0.8");
  }
  if (within.si() <= 0)
    return failure(
        ErrorCode::bad_input, "within", "the time allowed must be positive, such as 14h");
  Options until = options;
  until.horizon = std::max(options.horizon, within);
  // Now, none, all of it, and as many halvings as half a percent takes.
  constexpr double runs = 3 + 8;
  int done = 0;
  if (options.progress)
    until.progress = [&](double share) { options.progress(std::min(1.0, (done + share) / runs)); };
  const auto at = [&](double share) -> Result<Outcome> {
    const auto changed = with_share(bake, drink, share);
    if (!changed) return failure(changed);
    auto found = outcome(*changed, within, until);
    ++done;
    return found;
  };

  Reach result;
  result.drink = drink;
  result.within = within;
  const auto bowl = formula::in_the_bowl(bake);
  if (!bowl) return failure(bowl);
  const auto line = bake.find(drink);
  const Poured mine = line ? poured(bake, *bowl, *line) : Poured{};
  result.room = mine.room;
  result.now = mine.room * mine.share;

  const auto now = at(mine.share);
  if (!now) return failure(now);
  result.chance_now = now->chance;
  const auto plain = at(0);
  if (!plain) return failure(plain);
  result.without = plain->middle;
  result.none = plain->chance < chance;
  auto best = plain;
  double low = 0;
  double high = 1;
  if (!result.none) {
    const auto full = at(1);
    if (!full) return failure(full);
    result.all_of_it = full->chance >= chance;
    if (result.all_of_it) {
      best = full;
      low = 1;
    }
  }
  while (!result.none && !result.all_of_it && high - low > 0.005) {
    const double middle = 0.5 * (low + high);
    auto tried = at(middle);
    if (!tried) return failure(tried);
    if (tried->chance >= chance) {
      low = middle;
      best = std::move(tried);
    } else {
      high = middle;
    }
  }
  result.share = mine.room * low;
  result.chance = best->chance;
  result.ready = best->middle;
  return result;
}

}  // namespace barm::forecast

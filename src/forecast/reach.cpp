#include "forecast/reach.h"

#include <fmt/format.h>

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

const formula::Portion* find_drink(const formula::Bake& bake, const std::string& words) {
  const larder::Ingredient* meant = larder::find(words);
  for (const formula::Portion& portion : bake.bowl) {
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

namespace {

struct Liquid {
  double mine = 0, water = 0, all = 0;  // [kg]
};

bool of_the_liquid(const formula::Portion& portion) {
  return portion.measure == formula::Measure::of_liquid ||
         portion.measure == formula::Measure::rest_of_liquid;
}

// What the file calls the liquid, where line `line` is of that.
Liquid liquid_of(const formula::Bake& bake, const formula::Bowl& bowl, std::size_t line) {
  const bool named = of_the_liquid(bake.bowl[line]);
  Liquid out{bowl.lines[line].actual.in(kilogram), 0, 0};
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    const formula::Portion& portion = bake.bowl[i];
    const double here = bowl.lines[i].actual.in(kilogram);
    if (portion.ingredient.group == larder::Group::water) out.water += here;
    const bool counts =
        named ? of_the_liquid(portion) : portion.ingredient.is_liquid() && !portion.levain;
    if (counts) out.all += here;
  }
  return out;
}

Poured poured_of(const Liquid& liquid) {
  if (!(liquid.all > 0)) return {};
  return {liquid.mine / liquid.all, std::min(1.0, (liquid.mine + liquid.water) / liquid.all)};
}

tl::unexpected<Error> not_held(const formula::Bake& bake, const std::string& drink) {
  return failure(ErrorCode::not_found,
                 bake.file,
                 "'" + drink + "' is not a liquid of this bowl. It holds: " + keys(bake));
}

}  // namespace

Poured poured(const formula::Bake& bake, const formula::Bowl& bowl, std::size_t line) {
  return poured_of(liquid_of(bake, bowl, line));
}

Result<Poured> poured(const formula::Bake& bake, const std::string& drink) {
  const formula::Portion* found = find_drink(bake, drink);
  if (found == nullptr) return not_held(bake, drink);
  const auto bowl = formula::in_the_bowl(bake);
  if (!bowl) return failure(bowl);
  return poured(bake, *bowl, static_cast<std::size_t>(found - bake.bowl.data()));
}

Result<formula::Bake> with_share(const formula::Bake& bake,
                                 const std::string& drink,
                                 double share) {
  const formula::Portion* found = find_drink(bake, drink);
  if (found == nullptr) return not_held(bake, drink);
  const auto line = static_cast<std::size_t>(found - bake.bowl.data());
  const auto bowl = formula::in_the_bowl(bake);
  if (!bowl) return failure(bowl);
  const Liquid liquid = liquid_of(bake, *bowl, line);
  const double room = poured_of(liquid).room;
  constexpr double rounding = 1e-9;
  if (share > room + rounding) {
    return failure(
        ErrorCode::cannot_be_met,
        bake.file,
        fmt::format(
            "{} can be {:.3g} % of the liquid at most: the rest is no water", drink, 100 * room));
  }
  // From here on everything is in kilograms, so that only the drink and the water change.
  formula::Bake changed = bake;
  for (std::size_t i = 0; i < changed.bowl.size(); ++i) {
    changed.bowl[i].measure = formula::Measure::mass;
    changed.bowl[i].amount = bowl->lines[i].actual.in(kilogram);
    changed.bowl[i].weighed.reset();
    if (changed.bowl[i].ingredient.group == larder::Group::water) changed.bowl[i].amount = 0;
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
  const double pours = share * liquid.all;
  changed.bowl[line].amount = pours;
  find_water(changed)->amount = std::max(0.0, liquid.mine + liquid.water - pours);
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
  const auto mine = poured(bake, drink);
  if (!mine) return failure(mine);
  result.room = mine->room;
  result.now = mine->share;

  const auto now = at(mine->share);
  if (!now) return failure(now);
  result.chance_now = now->chance;
  const auto plain = at(0);
  if (!plain) return failure(plain);
  result.without = plain->middle;
  result.none = plain->chance < chance;
  auto best = plain;
  double low = 0;
  double high = mine->room;
  if (!result.none) {
    const auto full = at(high);
    if (!full) return failure(full);
    result.all_of_it = full->chance >= chance;
    if (result.all_of_it) {
      best = full;
      low = high;
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
  result.share = low;
  result.chance = best->chance;
  result.ready = best->middle;
  return result;
}

}  // namespace barm::forecast

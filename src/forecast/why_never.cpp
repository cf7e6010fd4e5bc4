#include "forecast/why_never.h"

#include <algorithm>
#include <cmath>

#include "forecast/internal/crowd.h"
#include "forecast/reach.h"
#include "forecast/warmth.h"
#include "generated/constants.h"
#include "kinetics/system.h"
#include "numerics/quantiles.h"

namespace barm::forecast {

namespace {

constexpr int looked_at = 60;           // doughs of which a change is tried
constexpr double enough_of_them = 0.8;  // share of them that must get there
constexpr int halvings = 7;
constexpr double food_left = 0.05;  // share of its sugar below which a dough has none to speak of
constexpr double holds_all = 1000;  // times its volume
constexpr double goes_on = 5;       // horizons in which a dough that is only slow gets there
constexpr double least_rise = 1.1;  // less is no rise to speak of

void hold_all(kinetics::Dough& dough, kinetics::Parameters<double>& parameters) {
  dough.rise_limit = holds_all;
  dough.strength = 1;
  dough.protease = 0;
  parameters[kinetics::Parameter::surface_leak] = parameters[kinetics::Parameter::pore_leak] = 0;
}

// Share of the doughs that get there.
double share_of(const std::vector<double>& hours) {
  const auto there =
      std::count_if(hours.begin(), hours.end(), [](double h) { return std::isfinite(h); });
  return static_cast<double>(there) / static_cast<double>(hours.size());
}

Options quick(const Options& options) {
  Options out = options;
  out.draws = looked_at;
  out.curves = false;
  return out;
}

// Whether half of the doughs would get there within the horizon if they held all their gas.
Result<bool> gas_is_enough(const formula::Bake& bake, const Options& options, Time horizon) {
  Options asked = quick(options);
  asked.horizon = horizon;
  const auto hours = hours_to_ready(bake, asked, {}, hold_all);
  if (!hours) return failure(hours);
  return share_of(*hours) >= 0.5;
}

// Whether the middle dough has eaten all it had by the horizon.
Result<bool> food_is_gone(const formula::Bake& bake, const Options& options) {
  Proving proving = proving_of(bake, options);
  auto middle = draw(bake, options.seed, -1, *options.prior);
  if (!middle) return failure(middle);
  const auto warmth = Warmth::of(bake, *middle, proving);
  if (!warmth) return failure(warmth);
  proving.track = warmth->bulk();
  proving.sample_every = 0.0 * hour;
  hold_all(middle->dough, middle->parameters);
  const auto course = run(middle->dough, middle->parameters, proving);
  if (!course) return failure(course);
  const auto food = [](const kinetics::StateOf<double>& y) {
    return y[kinetics::hexose] + y[kinetics::maltose] + y[kinetics::maltose_to_come];
  };
  const auto begin = kinetics::at_mixing(middle->dough, middle->parameters);
  return food(course->at_end) < food_left * (food(begin) + middle->dough.slow_hexose);
}

// A bake on the way from as it is (0) to having none of something (1).
struct Otherwise {
  Change change;
  std::function<Result<formula::Bake>(double)> bake;
  std::function<double(double)> value;  // what is said of it
};

formula::Bake with_temperature(formula::Bake bake, Temperature temperature) {
  for (formula::Stage& stage : bake.stages) {
    if (&stage == bake.bulk()) stage.temperature = temperature;
  }
  return bake;
}

Otherwise of_liquid(const formula::Bake& bake, const formula::Bowl& bowl, std::size_t i) {
  const std::string name = bake.bowl[i].ingredient.name;
  const Poured now = poured(bake, bowl, i);
  return {{Change::What::share_of_liquid, name, 0, now.share},
          [=](double x) { return with_share(bake, name, now.share * (1 - x)); },
          [=](double x) { return now.share * (1 - x); }};
}

Otherwise of_flour(const formula::Bake& bake, const formula::Bowl& bowl, std::size_t i) {
  const double share = bowl.lines[i].actual / bowl.flour;
  return {{Change::What::share_of_flour, bake.bowl[i].ingredient.name, 0, share},
          [=](double x) -> Result<formula::Bake> {
            std::vector<Mass> masses;
            for (const formula::Weighed& line : bowl.lines) masses.push_back(line.actual);
            masses[i] = masses[i] * (1 - x);
            return formula::by_weight(bake, masses);
          },
          [=](double x) { return share * (1 - x); }};
}

Otherwise of_place(const formula::Bake& bake, Temperature from) {
  const double to = constants::room::usual.value.celsius();
  const auto at = [=](double x) { return from.celsius() + x * (to - from.celsius()); };
  return {{Change::What::temperature, "", 0, from.celsius()},
          [=](double x) -> Result<formula::Bake> {
            return with_temperature(bake, Temperature::from_celsius(at(x)));
          },
          at};
}

// All that could be otherwise.
std::vector<Otherwise> all_otherwise(const formula::Bake& bake,
                                     const formula::Bowl& bowl,
                                     const Options& options) {
  std::vector<Otherwise> ways;
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    const formula::Portion& portion = bake.bowl[i];
    const larder::Group group = portion.ingredient.group;
    if (portion.levain || bowl.lines[i].actual.si() <= 0) continue;
    if (group == larder::Group::salt || group == larder::Group::sugar ||
        group == larder::Group::fruit || group == larder::Group::malt) {
      ways.push_back(of_flour(bake, bowl, i));
    } else if (portion.ingredient.is_liquid() && group != larder::Group::water) {
      ways.push_back(of_liquid(bake, bowl, i));
    }
  }
  const Temperature bulk = options.temperature.value_or(bake.bulk_temperature());
  if (bulk < constants::room::cold.value || bulk > constants::room::warm.value)
    ways.push_back(of_place(bake, bulk));
  if (bake.levain && (bake.levain->since_feeding || bake.levain->in_the_cold > Time{})) {
    ways.push_back({{Change::What::fresh_levain, "", 0, 0},
                    [=](double) -> Result<formula::Bake> {
                      formula::Bake fresh = bake;
                      fresh.levain->since_feeding.reset();
                      fresh.levain->in_the_cold = Time{};
                      return fresh;
                    },
                    [](double) { return 0.0; }});
  }
  return ways;
}

Result<bool> does(const Otherwise& way, double x, const Options& options) {
  const auto bake = way.bake(x);
  if (!bake) return failure(bake);
  Options asked = options;
  if (way.change.what == Change::What::temperature) asked.temperature.reset();
  const auto hours = hours_to_ready(*bake, asked);
  if (!hours) return failure(hours);
  return share_of(*hours) >= enough_of_them;
}

// How far the bake must go; above 1 where all of it is not enough. Of a few of the doughs.
Result<double> how_far(const Otherwise& way, const Options& all_options) {
  const Options options = quick(all_options);
  const auto all = does(way, 1, options);
  if (!all) return failure(all);
  if (!*all) return 2.0;
  if (way.change.what == Change::What::fresh_levain) return 1.0;
  double least = 0;
  double most = 1;
  for (int i = 0; i < halvings; ++i) {
    const double between = (least + most) / 2;
    const auto there = does(way, between, options);
    if (!there) return failure(there);
    (*there ? most : least) = between;
  }
  return most;
}

// A little further, until enough of all the doughs get there and not of a few alone.
Result<double> of_all_doughs(const Otherwise& way, double far, const Options& options) {
  constexpr double step = 1.0 / (1 << (halvings - 1));
  for (; far < 1; far = std::min(1.0, far + step)) {
    const auto there = does(way, far, options);
    if (!there) return failure(there);
    if (*there) break;
  }
  return far;
}

Result<std::optional<Change>> smallest_change(const formula::Bake& bake, const Options& options) {
  const auto bowl = middle_bowl(bake, options);
  if (!bowl) return failure(bowl);
  std::optional<Otherwise> smallest;
  double least = 1.5;
  for (const Otherwise& way : all_otherwise(bake, *bowl, options)) {
    const auto far = how_far(way, options);
    if (!far) return failure(far);
    if (*far >= least) continue;
    least = *far;
    smallest = way;
  }
  if (!smallest) return std::optional<Change>();
  const auto far = of_all_doughs(*smallest, least, options);
  if (!far) return failure(far);
  Change change = smallest->change;
  change.at_most = smallest->value(*far);
  return std::optional(change);
}

}  // namespace

Result<Obstacle> what_ends_it(const formula::Bake& asked, const Options& options) {
  const formula::Bake bake = Plan::of(asked, options).bake;
  const auto gas = gas_is_enough(bake, options, options.horizon);
  if (!gas) return failure(gas);
  if (*gas) return Obstacle::cannot_hold;
  const auto gone = food_is_gone(bake, options);
  if (!gone) return failure(gone);
  if (*gone) return Obstacle::food_gone;
  const auto later = gas_is_enough(bake, options, goes_on * options.horizon);
  if (!later) return failure(later);
  return *later ? Obstacle::too_slow : Obstacle::yeast_stops;
}

std::optional<double> rise_in_reach(std::vector<double> largest, double share, double target) {
  if (largest.empty()) return std::nullopt;
  const double reached = numerics::quantile(numerics::sorted(std::move(largest)), 1 - share);
  const double rise = std::floor(20 * reached) / 20;
  if (rise < least_rise || rise >= target) return std::nullopt;
  return rise;
}

Result<WhyNever> why_never(const formula::Bake& asked,
                           const Options& options,
                           std::vector<double> largest) {
  const formula::Bake bake = Plan::of(asked, options).bake;
  WhyNever why;
  const auto obstacle = what_ends_it(bake, options);
  if (!obstacle) return failure(obstacle);
  why.obstacle = *obstacle;
  auto change = smallest_change(bake, options);
  if (!change) return failure(change);
  why.change = *std::move(change);
  const double target = proving_of(bake, options).target;
  if (why.change) return why;
  if (const auto rise = rise_in_reach(std::move(largest), enough_of_them, target))
    why.change = Change{Change::What::target, "", *rise, target};
  return why;
}

}  // namespace barm::forecast

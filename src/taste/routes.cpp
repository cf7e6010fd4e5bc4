#include "taste/routes.h"

#include <algorithm>
#include <cmath>

#include "forecast/reach.h"
#include "taste/internal/offer.h"

namespace barm::taste {

namespace {

constexpr double floor_of_strength = 0.1;  // below a hint there is nothing to tell apart
constexpr double nearer_than = 1.25;       // a quarter more: what a panel just tells
constexpr double most_of_usual = 3;

/// Everything that routes of one bake share.
struct Ground {
  Situation now;
  internal::Asked drink;
  Luck luck;
  Tasted tasted;
};

Result<Ground> ground_of(const formula::Bake& bake, const RoutesQuestion& question) {
  auto drink = internal::asked_drink(bake, question.drink);
  if (!drink) return failure(drink);
  auto now = situation_of(bake, question.oven, question.options);
  if (!now) return failure(now);
  Luck luck(question.options.draws, question.options.seed);
  auto tasted_now = tasted(*now, luck);
  if (!tasted_now) return failure(tasted_now);
  return Ground{*std::move(now), *std::move(drink), std::move(luck), *std::move(tasted_now)};
}

double alcohol_in(const Situation& situation, const Tasted& in) {
  return in.alcohol.p50 * situation.loaf().in(kilogram);
}

double alcohol_on(const Route& route) {
  double grams = 0;
  constexpr double milli = 1e-3;
  for (const Applied& applied : route.applied) {
    for (const Brought& one : applied.scents) {
      if (scents()[one.scent].name == "ethanol") grams += milli * one.amount.middle * applied.kept;
    }
  }
  return grams;
}

void compare(const std::vector<double>& against, Gain& gain) {
  std::vector<double> times;
  double better = 0;
  for (std::size_t d = 0; d < against.size(); ++d) {
    const double mine = floor_of_strength + gain.tasted.strength[d];
    const double theirs = floor_of_strength + against[d];
    times.push_back(mine / theirs);
    better += mine > theirs ? 1 : 0;
  }
  gain.better = better / static_cast<double>(against.size());
  gain.times = range_of(std::move(times));
  const bool agree = gain.times.p10 > 1 || gain.times.p90 < 1;
  const bool far = gain.times.p50 > nearer_than || gain.times.p50 < 1 / nearer_than;
  gain.no_difference = !(agree && far);
}

Result<Gain> gain_of(Route route,
                     const RoutesQuestion& question,
                     Ground& ground,
                     const std::vector<double>& against) {
  Situation then = ground.now;
  if (route.changes_dough) {
    auto changed = situation_of(route.bake, question.oven, question.options);
    if (!changed) return failure(changed);
    then = *std::move(changed);
  }
  internal::change_scents(route, ground.drink, then);
  auto found = tasted(then, route.applied, ground.luck);
  if (!found) return failure(found);
  Gain out;
  out.tasted = *std::move(found);
  if (then.ready && ground.now.ready) out.later = *then.ready - *ground.now.ready;
  out.never = !then.ready;
  out.alcohol = alcohol_in(then, out.tasted) + alcohol_on(route);
  out.route = std::move(route);
  compare(against, out);
  return out;
}

void rank(std::vector<Gain>& gains) {
  std::stable_sort(gains.begin(), gains.end(), [](const Gain& a, const Gain& b) {
    if (a.no_difference != b.no_difference) return b.no_difference;
    return a.times.p50 > b.times.p50;
  });
}

Result<RoutesAnswer> answer_of(std::vector<Route> offered,
                               const RoutesQuestion& question,
                               Ground& ground,
                               const std::vector<double>& against) {
  RoutesAnswer out;
  out.drink = ground.drink.name;
  out.currency = ground.now.bake.bowl[ground.drink.portion].currency;
  out.alcohol = alcohol_in(ground.now, ground.tasted);
  for (Route& route : offered) {
    auto gain = gain_of(std::move(route), question, ground, against);
    if (!gain) return failure(gain);
    out.gains.push_back(*std::move(gain));
  }
  rank(out.gains);
  out.now = ground.tasted;
  return out;
}

}  // namespace

Result<RoutesAnswer> routes(const formula::Bake& bake, const RoutesQuestion& question) {
  auto ground = ground_of(bake, question);
  if (!ground) return failure(ground);
  auto offered = internal::offers(ground->now, ground->drink, ground->tasted.crust_share, 1);
  if (!offered) return failure(offered);
  const std::vector<double> against = ground->tasted.strength;
  return answer_of(*std::move(offered), question, *ground, against);
}

Result<RoutesAnswer> for_money(const formula::Bake& bake,
                               const RoutesQuestion& question,
                               double coins) {
  if (!(coins > 0))
    return failure(ErrorCode::bad_input, "money", "how much more a loaf may cost, such as 0.20");
  auto ground = ground_of(bake, question);
  if (!ground) return failure(ground);
  const auto usual = internal::offers(ground->now, ground->drink, ground->tasted.crust_share, 1);
  if (!usual) return failure(usual);
  std::vector<Route> affordable;
  for (const Route& route : *usual) {
    if (route.applied.empty()) {
      if (route.coins <= coins) affordable.push_back(route);
      continue;
    }
    const double amount = route.coins > 0 ? std::min(most_of_usual, coins / route.coins) : 1;
    auto scaled = internal::offers(ground->now, ground->drink, ground->tasted.crust_share, amount);
    if (!scaled) return failure(scaled);
    const auto same = std::find_if(
        scaled->begin(), scaled->end(), [&](const Route& one) { return one.means == route.means; });
    affordable.push_back(std::move(*same));
  }
  const std::vector<double> against = ground->tasted.strength;
  return answer_of(std::move(affordable), question, *ground, against);
}

Result<InTime> as_much_within(const formula::Bake& bake,
                              const RoutesQuestion& question,
                              Time within) {
  auto ground = ground_of(bake, question);
  if (!ground) return failure(ground);
  const auto ready_at = [&](double share) -> Result<std::optional<Time>> {
    const auto changed = forecast::with_share(bake, ground->drink.name, share);
    if (!changed) return failure(changed);
    const auto middle = forecast::foresee_middle(*changed, question.options);
    if (!middle) return failure(middle);
    return middle->book.ready;
  };
  const auto in_time = [&](const std::optional<Time>& ready) { return ready && *ready <= within; };
  const auto poured = forecast::poured(bake, ground->drink.name);
  if (!poured) return failure(poured);
  double low = 0;
  double high = poured->room;
  for (const double end : {0.0, high}) {
    const auto ready = ready_at(end);
    if (!ready) return failure(ready);
    if (end == 0 && !in_time(*ready))
      return failure(ErrorCode::cannot_be_met, "within", "even with water alone it is ready later");
    if (end > 0 && in_time(*ready)) low = end;
  }
  constexpr double percent_of_liquid = 0.01;
  while (high - low > percent_of_liquid) {
    const double middle = 0.5 * (low + high);
    const auto ready = ready_at(middle);
    if (!ready) return failure(ready);
    (in_time(*ready) ? low : high) = middle;
  }
  InTime out;
  out.share = low;
  auto changed = forecast::with_share(bake, ground->drink.name, low);
  if (!changed) return failure(changed);
  changed->pieces = bake.pieces;
  const std::vector<double> against = ground->tasted.strength;
  auto there = ground_of(*changed, question);
  if (!there) return failure(there);
  out.ready = there->now.ready.value_or(within);
  auto offered = internal::offers(there->now, there->drink, there->tasted.crust_share, 1);
  if (!offered) return failure(offered);
  std::erase_if(*offered, [](const Route& one) { return one.means == "replace more"; });
  auto answer = answer_of(*std::move(offered), question, *there, against);
  if (!answer) return failure(answer);
  out.with = *std::move(answer);
  std::erase_if(out.with.gains, [&](const Gain& one) {
    return one.never || (one.later && there->now.ready && *there->now.ready + *one.later > within);
  });
  out.no_less = !out.with.gains.empty() && out.with.gains.front().times.p50 >= 1;
  return out;
}

}  // namespace barm::taste

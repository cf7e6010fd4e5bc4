#include "forecast/in_the_way.h"

#include <algorithm>
#include <cmath>

#include "forecast/dough_of.h"
#include "forecast/many.h"
#include "generated/constants.h"
#include "numerics/shapley.h"

namespace barm::forecast {

using kinetics::Factor;

namespace {

std::vector<Factor> present_in(const Draw& middle, Temperature bulk) {
  std::vector<Factor> present;
  for (std::size_t f = 0; f < kinetics::factor_count; ++f) {
    const auto factor = static_cast<Factor>(f);
    if (holds(middle.bowl, middle.settled, bulk, factor)) present.push_back(factor);
  }
  return present;
}

bool of_the_drinks(Factor factor) { return factor != Factor::salt && factor < Factor::hunger; }

// In a place at the usual temperature where `but` names the place.
Options in_the_place(const Options& options, const std::vector<Factor>& but) {
  Options out = options;
  if (std::any_of(but.begin(), but.end(), of_the_place))
    out.temperature = constants::room::usual.value;
  return out;
}

}  // namespace

bool of_the_place(Factor factor) { return factor == Factor::cold || factor == Factor::warmth; }

std::string_view name(Factor factor) {
  switch (factor) {
    case Factor::alcohol:
      return "alcohol";
    case Factor::salt:
      return "salt";
    case Factor::sugar:
      return "sugar";
    case Factor::acid:
      return "acid";
    case Factor::sulphite:
      return "sulphite";
    case Factor::sorbate:
      return "sorbate";
    case Factor::hops:
      return "hops";
    case Factor::hunger:
      return "hungry levain";
    case Factor::weak_flour:
      return "weak flour";
    case Factor::cold:
      return "cold";
    case Factor::warmth:
      return "warmth";
  }
  return "unknown";
}

namespace {

// The typical dough's hours to ready with every combination of the factors: bit i of a place set
// where factor i is there.
Result<std::vector<double>> hours_of_all(const formula::Bake& bake,
                                         const Options& options,
                                         const std::vector<Factor>& factors,
                                         Made& made) {
  const auto middle = made.middle(bake, options);
  if (!middle) return failure(middle);
  const Proving proving = proving_of(bake, options);
  const auto warmth = made.warmth(bake, options, proving);
  if (!warmth) return failure(warmth);
  const heat::Track here = warmth->bulk();
  ManyOptions how;
  how.proving.horizon = options.horizon;
  how.proving.target = proving.target;
  how.proving.handlings = proving.handlings;
  how.proving.stop_at_target = true;
  how.precision = Precision::single;
  how.threads = options.threads;
  how.cancelled = options.cancelled;
  std::vector<Case> cases(std::size_t{1} << factors.size());
  for (std::size_t mask = 0; mask < cases.size(); ++mask) {
    auto settled = middle->settled;
    bool elsewhere = false;
    for (std::size_t i = 0; i < factors.size(); ++i) {
      if (((mask >> i) & 1U) != 0) continue;
      settled = without(bake, std::move(settled), factors[i]);
      elsewhere = elsewhere || of_the_place(factors[i]);
    }
    const auto bowl = formula::in_the_bowl(bake, settled);
    if (!bowl) return failure(bowl);
    Case& one = cases[mask];
    one.dough = dough_of(*bowl, settled);
    one.parameters = middle->parameters;
    one.temperature = elsewhere ? constants::room::usual.value : proving.temperature;
    if (!elsewhere) one.track = here;
  }
  const auto ran = foresee_many(cases, how);
  if (!ran) return failure(ran);
  std::vector<double> hours;
  for (const Passed& passed : ran->passed) {
    const double ready = std::max(passed.ready, proving.ready_from.in(hour));
    hours.push_back(std::min(ready, options.horizon.in(hour)));
  }
  return hours;
}

// How the factors share what they cost the typical dough [h], in their order.
Result<std::vector<double>> shares_of(const formula::Bake& bake,
                                      const Options& options,
                                      const std::vector<Factor>& factors,
                                      Made& made) {
  const auto hours = hours_of_all(bake, options, factors, made);
  if (!hours) return failure(hours);
  return numerics::shapley(factors.size(), [&](unsigned mask) { return (*hours)[mask]; });
}

// The same sum shared among so many hours of all doughs.
void scale(std::vector<double>& shares, double hours) {
  double sum = 0;
  double size = 0;
  for (const double share : shares) {
    sum += share;
    size += std::abs(share);
  }
  for (double& share : shares) {
    // Where the shares all but cancel out, what is missing is spread by their size.
    share = std::abs(sum) > 0.3 * size ? share * hours / sum
            : size > 0                 ? share + (hours - sum) * std::abs(share) / size
                                       : hours / static_cast<double>(shares.size());
  }
}

constexpr double quarter = 0.25;  // [h] to which hours are said

// By the largest remainder: each cost down to a quarter of an hour, and what is missing from the
// whole to those that lost most. The whole is what lies between two hours as a clock shows them.
void round_together(InTheWay& way, Time mixed) {
  const auto shown = [&](const std::optional<Time>& after) {
    return std::round((mixed + after.value_or(way.horizon)).in(hour) / quarter);
  };
  std::vector<Hindrance*> by_loss;
  double left = shown(way.as_it_is) - shown(way.bare);
  const auto lost = [](const Hindrance* one) {
    const double quarters = one->costs.in(hour) / quarter;
    return quarters - std::floor(quarters);
  };
  for (Hindrance& one : way.hindrances) {
    const double down = std::floor(one.costs.in(hour) / quarter);
    one.said = down * quarter * hour;
    left -= down;
    by_loss.push_back(&one);
  }
  if (by_loss.empty()) return;
  std::stable_sort(by_loss.begin(), by_loss.end(), [&](const Hindrance* a, const Hindrance* b) {
    return lost(a) > lost(b);
  });
  // The hours at both ends are rounded too, so that what is left may be one more or less than none.
  for (std::size_t i = 0; left >= 1; i = (i + 1) % by_loss.size(), --left)
    by_loss[i]->said = by_loss[i]->said + quarter * hour;
  if (left <= -1) by_loss.back()->said = by_loss.back()->said - quarter * hour;
}

}  // namespace

Result<InTheWay> in_the_way(const formula::Bake& asked,
                            const Options& options,
                            const std::optional<Spread>& ready,
                            Made& made) {
  const auto half_ready = [&](const std::vector<Factor>& but) -> Result<std::optional<Time>> {
    auto hours = hours_to_ready(asked, in_the_place(options, but), but, made);
    if (!hours) return failure(hours);
    return spread(std::move(*hours)).p50;
  };
  return in_the_way(asked, options, ready, half_ready, made);
}

Result<InTheWay> in_the_way(const formula::Bake& asked,
                            const Options& options,
                            const std::optional<Spread>& ready,
                            const HalfReady& half_ready,
                            Made& made) {
  const formula::Bake bake = Plan::of(asked, options).bake;
  const auto middle = made.middle(bake, options);
  if (!middle) return failure(middle);
  const Temperature bulk = options.temperature.value_or(bake.bulk_temperature());
  const std::vector<Factor> factors = present_in(*middle, bulk);
  const bool by_time = bake.bulk()->lasts && !bake.bulk()->until;
  std::optional<Error> error;
  const auto half_of = [&](const std::vector<Factor>& but) -> std::optional<Time> {
    const auto half = half_ready(but);
    if (half) return *half;
    error = half.error();
    return std::nullopt;
  };
  InTheWay result;
  result.horizon = options.horizon;
  result.as_it_is = ready && !by_time ? ready->p50 : half_of({});
  result.at_least = !result.as_it_is;
  result.bare = factors.empty() ? result.as_it_is : half_of(factors);
  std::vector<Factor> drinks = factors;
  std::erase_if(drinks, [](Factor factor) { return !of_the_drinks(factor); });
  result.plain = drinks.empty()                    ? result.as_it_is
                 : drinks.size() == factors.size() ? result.bare
                                                   : half_of(drinks);
  if (error) return failure(*error);
  auto shares = shares_of(bake, options, factors, made);
  if (!shares) return failure(shares);
  const Time cost =
      result.as_it_is.value_or(options.horizon) - result.bare.value_or(options.horizon);
  scale(*shares, cost.in(hour));
  for (std::size_t i = 0; i < factors.size(); ++i)
    result.hindrances.push_back({factors[i], (*shares)[i] * hour, {}});
  const double on_the_clock = bake.mixed_at ? bake.mixed_at->second_of_day : 0;
  round_together(result, on_the_clock * second);
  std::stable_sort(result.hindrances.begin(),
                   result.hindrances.end(),
                   [](const Hindrance& a, const Hindrance& b) { return a.costs > b.costs; });
  return result;
}

}  // namespace barm::forecast

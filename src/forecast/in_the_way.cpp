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

// In a place neither cold nor warm where `but` names it.
Options in_the_place(const Options& options, Temperature bulk, const std::vector<Factor>& but) {
  Options out = options;
  if (std::any_of(but.begin(), but.end(), of_the_place))
    out.temperature = neither_cold_nor_warm(bulk);
  return out;
}

}  // namespace

bool of_the_place(Factor factor) { return factor == Factor::cold || factor == Factor::warmth; }

Temperature neither_cold_nor_warm(Temperature place) {
  return std::clamp(place, constants::room::cold.value, constants::room::warm.value);
}

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

// The doughs that share out: as many with one thing more in the way, or all would share otherwise;
// fewer where the combinations are very many. One dough alone may stand on an edge that hardly any
// other stands on.
std::size_t sharing(std::size_t factors) { return factors <= 7 ? 16 : 8; }

// One dough with every combination of the factors: bit i of a place set where factor i is there.
std::optional<Error> add_cases(const formula::Bake& bake,
                               const Draw& dough,
                               const std::vector<Factor>& factors,
                               const Case& as_it_is,
                               std::vector<Case>& cases) {
  for (std::size_t mask = 0; mask < std::size_t{1} << factors.size(); ++mask) {
    std::vector<Factor> away;
    for (std::size_t i = 0; i < factors.size(); ++i)
      if (((mask >> i) & 1U) == 0) away.push_back(factors[i]);
    const auto without_them = without(bake, dough, away);
    if (!without_them) return without_them.error();
    Case one = as_it_is;
    one.dough = without_them->dough;
    one.parameters = dough.parameters;
    if (std::any_of(away.begin(), away.end(), of_the_place)) {
      one.temperature = neither_cold_nor_warm(as_it_is.temperature);
      one.track = {};
    }
    cases.push_back(std::move(one));
  }
  return std::nullopt;
}

// The mean over some doughs of ln hours to ready, by combination.
Result<std::vector<double>> ln_hours_of_all(const formula::Bake& bake,
                                            const Options& options,
                                            const std::vector<Factor>& factors,
                                            Made& made) {
  const Proving proving = proving_of(bake, options);
  const auto doughs = made.draws(bake, options, sharing(factors.size()));
  if (!doughs) return failure(doughs);
  const auto warmth = made.warmth(bake, options, proving);
  if (!warmth) return failure(warmth);
  ManyOptions how;
  how.proving.horizon = options.horizon;
  how.proving.target = proving.target;
  how.proving.handlings = proving.handlings;
  how.proving.stop_at_target = true;
  how.precision = Precision::single;
  how.threads = options.threads;
  how.cancelled = options.cancelled;
  Case as_it_is;
  as_it_is.temperature = proving.temperature;
  as_it_is.track = warmth->bulk();
  std::vector<Case> cases;
  for (const Draw& dough : *doughs) {
    if (const auto error = add_cases(bake, dough, factors, as_it_is, cases)) return failure(*error);
  }
  const auto ran = foresee_many(cases, how);
  if (!ran) return failure(ran);
  const std::size_t masks = cases.size() / doughs->size();
  std::vector<double> mean(masks, 0.0);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const double ready = std::max(ran->passed[i].ready, proving.ready_from.in(hour));
    const double hours = std::min(ready, options.horizon.in(hour));
    mean[i % masks] += std::log(hours) / static_cast<double>(doughs->size());
  }
  return mean;
}

// How the factors share a way from `bare` to `all` hours: what each adds to the ln of the hours, in
// hours by the logarithmic mean of the two; what is missing from the whole, by its size.
std::vector<double> in_hours(std::vector<double> shares, double bare, double all) {
  const double ratio = std::log(all / bare);
  const double mean = std::abs(ratio) > 1e-9 ? (all - bare) / ratio : all;
  double missing = all - bare;
  double size = 0;
  for (double& share : shares) {
    share *= mean;
    missing -= share;
    size += std::abs(share);
  }
  for (double& share : shares)
    share += missing * (size > 0 ? std::abs(share) / size : 1 / static_cast<double>(shares.size()));
  return shares;
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
  const Temperature bulk = options.temperature.value_or(asked.bulk_temperature());
  const auto half_ready = [&](const std::vector<Factor>& but) -> Result<std::optional<Time>> {
    auto hours = hours_to_ready(asked, in_the_place(options, bulk, but), but, made);
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
  const auto ln_hours = ln_hours_of_all(bake, options, factors, made);
  if (!ln_hours) return failure(ln_hours);
  const auto costs =
      in_hours(numerics::shapley(factors.size(), [&](unsigned mask) { return (*ln_hours)[mask]; }),
               result.bare.value_or(options.horizon).in(hour),
               result.as_it_is.value_or(options.horizon).in(hour));
  for (std::size_t i = 0; i < factors.size(); ++i)
    result.hindrances.push_back({factors[i], costs[i] * hour, {}});
  const double on_the_clock = bake.mixed_at ? bake.mixed_at->second_of_day : 0;
  round_together(result, on_the_clock * second);
  std::erase_if(result.hindrances, [](const Hindrance& one) {
    return one.factor == Factor::hunger && one.said == Time{};
  });
  std::stable_sort(result.hindrances.begin(),
                   result.hindrances.end(),
                   [](const Hindrance& a, const Hindrance& b) { return a.costs > b.costs; });
  return result;
}

}  // namespace barm::forecast

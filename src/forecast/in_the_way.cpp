#include "forecast/in_the_way.h"

#include <algorithm>
#include <cmath>

#include "forecast/dough_of.h"
#include "forecast/warmth.h"
#include "numerics/shapley.h"

namespace barm::forecast {

using kinetics::Factor;

namespace {

std::vector<Factor> present_in(const formula::Bowl& bowl) {
  std::vector<Factor> present;
  for (std::size_t f = 0; f < kinetics::factor_count; ++f) {
    if (holds(bowl, static_cast<Factor>(f))) present.push_back(static_cast<Factor>(f));
  }
  return present;
}

}  // namespace

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
  }
  return "unknown";
}

namespace {

// How the factors share what they cost the book dough [h], in their order.
Result<std::vector<double>> shares_of(const formula::Bake& bake,
                                      const Options& options,
                                      const Draw& middle,
                                      const std::vector<Factor>& factors) {
  Proving proving = proving_of(bake, options);
  const auto warmth = Warmth::of(bake, middle, proving);
  if (!warmth) return failure(warmth);
  proving.track = warmth->bulk();
  proving.sample_every = 0.0 * hour;
  proving.stop_at_target = true;
  proving.accuracy.relative = 1e-5;
  std::optional<Error> error;
  const auto hours_with = [&](unsigned mask) {
    auto settled = middle.settled;
    for (std::size_t i = 0; i < factors.size(); ++i) {
      if (((mask >> i) & 1U) == 0) settled = without(bake, std::move(settled), factors[i]);
    }
    const auto bowl = formula::in_the_bowl(bake, settled);
    const auto course = bowl ? run(dough_of(*bowl, settled), middle.parameters, proving)
                             : Result<Course>(failure(bowl));
    if (!course) error = course.error();
    return course ? course->ready.value_or(options.horizon).in(hour) : 0;
  };
  auto shares = numerics::shapley(factors.size(), hours_with);
  if (error) return failure(error->code, error->where, error->message);
  return shares;
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

}  // namespace

Result<InTheWay> in_the_way(const formula::Bake& asked,
                            const Options& options,
                            const std::optional<Spread>& ready) {
  const formula::Bake bake = Plan::of(asked, options).bake;
  const auto middle = draw(bake, options.seed, -1, *options.prior);
  if (!middle) return failure(middle);
  const std::vector<Factor> factors = present_in(middle->bowl);
  const bool by_time = bake.bulk()->lasts && !bake.bulk()->until;
  std::optional<Error> error;
  const auto half_of = [&](const std::vector<Factor>& but) -> std::optional<Time> {
    auto hours = hours_to_ready(bake, options, but);
    if (hours) return spread(std::move(*hours)).p50;
    error = hours.error();
    return std::nullopt;
  };
  InTheWay result;
  result.horizon = options.horizon;
  result.as_it_is = ready && !by_time ? ready->p50 : half_of({});
  result.at_least = !result.as_it_is;
  result.bare = factors.empty() ? result.as_it_is : half_of(factors);
  std::vector<Factor> but_salt = factors;
  std::erase(but_salt, Factor::salt);
  result.plain = but_salt.empty()                    ? result.as_it_is
                 : but_salt.size() == factors.size() ? result.bare
                                                     : half_of(but_salt);
  if (error) return failure(error->code, error->where, error->message);
  auto shares = shares_of(bake, options, *middle, factors);
  if (!shares) return failure(shares);
  const Time cost =
      result.as_it_is.value_or(options.horizon) - result.bare.value_or(options.horizon);
  scale(*shares, cost.in(hour));
  for (std::size_t i = 0; i < factors.size(); ++i)
    result.hindrances.push_back({factors[i], (*shares)[i] * hour});
  std::stable_sort(result.hindrances.begin(),
                   result.hindrances.end(),
                   [](const Hindrance& a, const Hindrance& b) { return a.costs > b.costs; });
  return result;
}

}  // namespace barm::forecast

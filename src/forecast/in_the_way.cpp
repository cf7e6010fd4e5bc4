#include "forecast/in_the_way.h"

#include <algorithm>

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

Result<InTheWay> in_the_way(const formula::Bake& bake, const Options& options) {
  const auto middle = draw(bake, options.seed, -1, *options.prior);
  if (!middle) return failure(middle);
  Proving proving = proving_of(bake, options);
  const auto warmth = Warmth::of(bake, *middle, proving);
  if (!warmth) return failure(warmth);
  proving.track = warmth->bulk();
  proving.sample_every = 0.0 * hour;
  proving.stop_at_target = true;
  proving.accuracy.relative = 1e-5;
  const std::vector<Factor> factors = present_in(middle->bowl);

  std::optional<Error> error;
  const auto time_with = [&](unsigned mask) -> std::optional<Time> {
    auto settled = middle->settled;
    for (std::size_t i = 0; i < factors.size(); ++i) {
      if (((mask >> i) & 1U) == 0) settled = without(bake, std::move(settled), factors[i]);
    }
    const auto bowl = formula::in_the_bowl(bake, settled);
    const auto course = bowl ? run(dough_of(*bowl, settled), middle->parameters, proving)
                             : Result<Course>(failure(bowl));
    if (!course) {
      error = course.error();
      return std::nullopt;
    }
    return course->ready;
  };
  const double horizon = options.horizon.in(hour);
  const auto hours_with = [&](unsigned mask) {
    const auto time = time_with(mask);
    return time ? time->in(hour) : horizon;
  };

  InTheWay result;
  result.horizon = options.horizon;
  const unsigned all = (1U << factors.size()) - 1;
  unsigned salt_only = 0;
  for (std::size_t i = 0; i < factors.size(); ++i) {
    if (factors[i] == Factor::salt) salt_only = 1U << i;
  }
  result.as_it_is = time_with(all);
  result.plain = time_with(salt_only);
  result.at_least = !result.as_it_is;
  const auto shares = numerics::shapley(factors.size(), hours_with);
  if (error) return failure(error->code, error->where, error->message);
  for (std::size_t i = 0; i < factors.size(); ++i)
    result.hindrances.push_back({factors[i], shares[i] * hour});
  std::stable_sort(result.hindrances.begin(),
                   result.hindrances.end(),
                   [](const Hindrance& a, const Hindrance& b) { return a.costs > b.costs; });
  return result;
}

}  // namespace barm::forecast

#include "estimation/half_ready.h"

#include <algorithm>
#include <cmath>

#include "estimation/internal/learned_crowd.h"
#include "forecast/draw.h"
#include "forecast/in_the_way.h"
#include "generated/constants.h"
#include "numerics/quantiles.h"

namespace barm::estimation {

namespace {

// The dough of the same unknowns, with these out of its way.
Result<DoughToRead> freed(DoughToRead dough, const std::vector<kinetics::Factor>& factors) {
  if (factors.empty()) return dough;
  const std::vector<double> middle(dough.dimension(), 0.0);
  const formula::Bake& bake = dough.plan.bake;
  auto drawn = forecast::draw_of(bake, internal::parameters_of(dough, middle.data()));
  if (drawn) drawn = forecast::without(bake, *std::move(drawn), factors);
  if (!drawn) return failure(drawn);
  dough.dough = drawn->dough;
  if (std::any_of(factors.begin(), factors.end(), forecast::of_the_place)) {
    dough.bulk.track = {};
    dough.bulk.temperature = forecast::neither_cold_nor_warm(dough.bulk.temperature);
  }
  return dough;
}

}  // namespace

Result<std::optional<Time>> half_ready(const DoughToRead& dough,
                                       const Readings& readings,
                                       const Learned& learned,
                                       const std::vector<kinetics::Factor>& without,
                                       const LearnOptions& options) {
  const auto free = freed(dough, without);
  if (!free) return failure(free);
  const internal::LearnedCrowd doughs(
      *free, internal::seen_of(dough, readings), learned, options.seed);
  forecast::CrowdOptions how;
  how.proving = free->bulk;
  how.proving.accuracy = forecast::ManyOptions().proving.accuracy;
  how.own_horizon = doughs.own_horizon();
  how.threads = options.threads;
  how.cancelled = options.cancelled;
  how.hours_alone = true;
  const auto hours =
      forecast::ready_hours(forecast::to_its_target(free->plan), doughs.crowd(), how);
  if (!hours) return failure(hours);
  const double half = numerics::weighted_quantile(*hours, learned.weight, 0.5);
  return std::isfinite(half) ? std::optional<Time>(half * hour) : std::nullopt;
}

}  // namespace barm::estimation

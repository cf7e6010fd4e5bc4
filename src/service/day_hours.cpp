#include "service/day_hours.h"

#include <algorithm>
#include <cmath>

#include "estimation/learn.h"
#include "estimation/outlook.h"
#include "forecast/ensemble.h"
#include "service/aim.h"
#include "service/read.h"
#include "service/words.h"

namespace barm::service {

namespace {

constexpr int least_draws_learned =
    2000;  // draws that agree with readings, of which some are taken

/// The bake left in its first bulk.
formula::Bake left_in_bulk(formula::Bake bake) {
  if (const formula::Stage* bulk = bake.bulk()) {
    const auto next = bake.stages.begin() + (bulk - bake.stages.data()) + 1;
    bake.stages.erase(
        std::remove_if(next,
                       bake.stages.end(),
                       [](const formula::Stage& each) { return each.step != formula::Step::fold; }),
        bake.stages.end());
  }
  return bake;
}

void add_dough(BulkDraws& out, double ready, double past) {
  out.ready.push_back(static_cast<float>(60 * ready));
  out.lasts.push_back(std::isfinite(past) ? static_cast<float>(60 * std::max(0.0, past - ready))
                                          : dayplan::for_ever);
}

Result<BulkDraws> bulk_foreseen(const formula::Bake& bake, const forecast::Options& options) {
  const auto forecast = forecast::foresee(bake, options);
  if (!forecast) return failure(forecast);
  const forecast::Timeline& timeline = forecast->timeline;
  BulkDraws out;
  for (std::size_t k = 0; k < timeline.ready_hours.size(); ++k)
    add_dough(out, timeline.ready_hours[k], timeline.past_hours[k]);
  return out;
}

/// Draws of equal weight: dough k is the one at (k + 1/2) / n of the sum of the weights.
BulkDraws bulk_taken(const estimation::Outlook& outlook, int draws) {
  BulkDraws out;
  double sum = outlook.weight.front();
  std::size_t at = 0;
  for (int k = 0; k < draws; ++k) {
    const double place = (k + 0.5) / draws;
    while (sum < place && at + 1 < outlook.weight.size()) sum += outlook.weight[++at];
    add_dough(out, outlook.ready_hours[at], outlook.past_hours[at]);
  }
  return out;
}

Result<BulkDraws> bulk_learned(const DayBake& known,
                               const formula::Bake& bake,
                               const forecast::Options& options) {
  const auto belief = known.belief.value_or(estimation::day_one_belief());
  auto batch = batch_of(bake, belief, known.readings, options);
  if (!batch) return failure(batch);
  estimation::widen(*batch, known.readings);
  estimation::LearnOptions learning;
  learning.draws = std::max(least_draws_learned, options.draws);
  learning.seed = options.seed;
  learning.threads = options.threads;
  learning.cancelled = options.cancelled;
  const auto taught = estimation::learn(*batch, known.readings, learning);
  if (!taught) return failure(taught);
  const auto outlook = estimation::outlook(*batch, known.readings, *taught, learning);
  if (!outlook) return failure(outlook);
  return bulk_taken(*outlook, options.draws);
}

}  // namespace

formula::Bake made_by(const formula::Bake& bake, const OtherWay& way) {
  formula::Bake out = bake;
  for (formula::Portion& portion : out.bowl) {
    if (way.levain && portion.levain) portion.amount = *way.levain;
  }
  return out;
}

Result<BulkDraws> bulk_draws(const DayBake& known,
                             const OtherWay& way,
                             const forecast::Options& wanted) {
  forecast::Options options = wanted;
  options.curves = false;
  options.until_past = true;
  options.temperature = way.bulk;
  std::optional<kinetics::JointPrior> prior;
  if (known.belief) options.prior = &prior.emplace(estimation::prior_of(*known.belief));
  formula::Bake bake = made_by(known.bake, way);
  if (bake.target_follows) {
    const auto ready_for = aim(bake, options);
    if (!ready_for) return failure(ready_for);
  }
  bake = left_in_bulk(std::move(bake));
  const bool read = known.mixed && !known.readings.rows.empty();
  auto out = read ? bulk_learned(known, bake, options) : bulk_foreseen(bake, options);
  if (!out) return out;
  const auto never = std::count_if(
      out->ready.begin(), out->ready.end(), [](float ready) { return !std::isfinite(ready); });
  if (2 * static_cast<std::size_t>(never) > out->ready.size()) {
    return failure(ErrorCode::cannot_be_met,
                   known.file,
                   "more than half of such doughs are not ready within " + span(options.horizon));
  }
  return out;
}

}  // namespace barm::service

#include "service/day/hours.h"

#include <algorithm>
#include <cmath>

#include "estimation/learn.h"
#include "estimation/outlook.h"
#include "forecast/ensemble.h"
#include "service/bake/aim.h"
#include "service/bake/read.h"
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

/// The time that the cold behind the bulk takes by the file [min], and whether a proof before it
/// ends at a volume.
struct BehindTheBulk {
  float cold = 0;
  bool proof_by_volume = false;
};

BehindTheBulk behind_the_bulk(const formula::Bake& bake) {
  BehindTheBulk out;
  for (const formula::Stage& each : bake.stages) {
    if (each.step == formula::Step::cold)
      out.cold += static_cast<float>(each.lasts.value_or(Time{}).in(minute));
    if (each.step == formula::Step::proof) out.proof_by_volume = each.until.has_value();
  }
  return out;
}

float in_minutes(double hours) {
  return std::isfinite(hours) ? static_cast<float>(60 * hours) : dayplan::for_ever;
}

/// One dough after the other, each from its four hours.
class Gathered {
 public:
  explicit Gathered(const formula::Bake& bake) : behind_(behind_the_bulk(bake)) {
    out.stays.clear();
  }

  void add(double ready, double past, double oven, double oven_past) {
    out.ready.push_back(in_minutes(ready));
    out.lasts.push_back(in_minutes(std::isfinite(past) ? std::max(0.0, past - ready) : past));
    out.stays.push_back(std::isfinite(oven) ? in_minutes(oven_past - oven) : dayplan::for_ever);
    if (behind_.proof_by_volume)
      out.proof.push_back(std::isfinite(oven)
                              ? std::max(0.0F, in_minutes(oven - ready) - behind_.cold)
                              : dayplan::for_ever);
  }

  DoughDraws out;

 private:
  BehindTheBulk behind_;
};

Result<DoughDraws> foreseen(const formula::Bake& bake,
                            const forecast::Options& options,
                            forecast::Made& made) {
  const auto hours = forecast::dough_hours(bake, options, longest_wait, made);
  if (!hours) return failure(hours);
  Gathered all(bake);
  for (std::size_t k = 0; k < hours->ready.size(); ++k)
    all.add(hours->ready[k], hours->past[k], hours->oven[k], hours->oven_past[k]);
  return std::move(all.out);
}

/// Draws of equal weight: dough k is the one at (k + 1/2) / n of the sum of the weights.
DoughDraws taken(const formula::Bake& bake, const estimation::Outlook& outlook, int draws) {
  Gathered all(bake);
  const forecast::Timeline& timeline = outlook.timeline;
  double sum = outlook.weight.front();
  std::size_t at = 0;
  for (int k = 0; k < draws; ++k) {
    const double place = (k + 0.5) / draws;
    while (sum < place && at + 1 < outlook.weight.size()) sum += outlook.weight[++at];
    all.add(outlook.ready_hours[at],
            outlook.past_hours[at],
            timeline.oven_hours[at],
            timeline.past_hours[at]);
  }
  return std::move(all.out);
}

Result<DoughDraws> learned(const DayBake& known,
                           const formula::Bake& bake,
                           const forecast::Options& options) {
  Batch batch = known;
  batch.bake = bake;
  auto dough = dough_to_read(batch, options);
  if (!dough) return failure(dough);
  estimation::widen(*dough, known.readings);
  estimation::LearnOptions learning;
  learning.draws = std::max(least_draws_learned, options.draws);
  learning.seed = options.seed;
  learning.threads = options.threads;
  learning.cancelled = options.cancelled;
  learning.until_past = true;
  learning.wait = longest_wait;
  const auto taught = estimation::learn(*dough, known.readings, learning);
  if (!taught) return failure(taught);
  const auto outlook = estimation::outlook(*dough, known.readings, *taught, learning);
  if (!outlook) return failure(outlook);
  return taken(bake, *outlook, options.draws);
}

}  // namespace

formula::Bake made_by(const formula::Bake& bake, const OtherWay& way) {
  formula::Bake out = bake;
  for (formula::Portion& portion : out.bowl) {
    if (way.levain && portion.levain) portion.amount = *way.levain;
  }
  return out;
}

Result<DoughDraws> dough_draws(const DayBake& known,
                               const OtherWay& way,
                               const forecast::Options& wanted) {
  forecast::Options options = known.as_it_stands(wanted);
  options.curves = false;
  options.temperature = way.bulk;
  formula::Bake bake = made_by(known.bake, way);
  forecast::Made made;
  if (bake.target_follows) {
    const auto ready_for = aim(bake, options, made);
    if (!ready_for) return failure(ready_for);
  }
  if (way.fridge) bake = left_in_bulk(std::move(bake));
  const bool read = known.now && !known.readings.rows.empty();
  auto out = read ? learned(known, bake, options) : foreseen(bake, options, made);
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

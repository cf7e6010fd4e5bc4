#include "forecast/ensemble.h"

#include <algorithm>
#include <limits>

#include "forecast/internal/crowd.h"
#include "forecast/many.h"
#include "forecast/rests_on.h"
#include "forecast/warmth.h"
#include "numerics/quantiles.h"

namespace barm::forecast {

namespace {

using kinetics::Factor;

std::vector<double> of_all(const std::vector<Passed>& all, double Passed::* what) {
  std::vector<double> hours;
  hours.reserve(all.size());
  for (const Passed& passed : all) hours.push_back(passed.*what);
  return hours;
}

std::vector<Band> band(const LeftInTheBulk& left, double every) {
  static constexpr double shares[] = {0.1, 0.5, 0.9};
  std::vector<Band> out;
  for (std::size_t s = 0; s < left.samples; ++s) {
    std::vector<double> at;
    at.reserve(left.passed.size());
    for (std::size_t i = 0; i < left.passed.size(); ++i)
      at.push_back(static_cast<double>(left.rise[i * left.samples + s]));
    const auto of = numerics::quantiles(at, shares);
    out.push_back({static_cast<double>(s) * every, of[0], of[1], of[2]});
  }
  return out;
}

// All doughs of a bake as they set out.
struct SettingOut {
  Plan plan;
  Proving proving;
  Draw middle;
  Crowd crowd;
};

Result<SettingOut> set_out(Plan plan,
                           const Options& options,
                           Made& made,
                           TrackSteps steps,
                           const std::vector<Factor>& but = {},
                           ChangeDough change = nullptr) {
  const Proving proving = proving_of(plan.bake, options);
  auto middle = made.middle(plan.bake, options);
  if (!middle) return failure(middle);
  auto doughs = internal::draw_doughs(plan, options, made, but);
  if (!doughs) return failure(doughs);
  if (change != nullptr)
    for (Walking& walking : *doughs) change(walking.dough, walking.parameters);
  auto bulks = made.bulks(plan.bake, options, proving, *doughs, steps);
  if (!bulks) return failure(bulks);
  if (options.progress) options.progress(0.3);
  Crowd crowd{std::move(*doughs), {}, *std::move(bulks)};
  return SettingOut{std::move(plan), proving, std::move(*middle), std::move(crowd)};
}

Result<std::vector<double>> ready_alone(const Result<SettingOut>& out, const Options& options) {
  if (!out) return failure(out);
  CrowdOptions how = internal::crowd_options(out->proving, options);
  how.hours_alone = true;
  return ready_hours(out->plan, out->crowd, how);
}

}  // namespace

Proving proving_of(const formula::Bake& bake, const Options& options) {
  Proving proving;
  proving.temperature = options.temperature.value_or(bake.bulk_temperature());
  proving.horizon = options.horizon;
  proving.target = options.target > 0 ? options.target : bake.target;
  proving.handlings = folds_of(bake);
  proving.ready_from = std::min(options.horizon, bulk_begins(bake));
  return proving;
}

Result<MiddleDough> foresee_middle(const formula::Bake& bake, const Options& options) {
  const Plan plan = Plan::of(bake, options);
  Proving proving = proving_of(plan.bake, options);
  auto middle = draw(plan.bake, options.seed, -1, *options.prior);
  if (!middle) return failure(middle);
  const auto warmth = Warmth::of(plan.bake, *middle, proving);
  if (!warmth) return failure(warmth);
  proving.track = warmth->bulk();
  auto book = run(middle->dough, middle->parameters, proving);
  if (!book) return failure(book);
  auto stops = journey(plan.bake, *middle, proving);
  if (!stops) return failure(stops);
  return MiddleDough{std::move(middle->bowl),
                     std::move(middle->settled),
                     std::move(*book),
                     std::move(*stops),
                     proving.target};
}

Result<formula::Bowl> middle_bowl(const formula::Bake& bake, const Options& options) {
  auto middle = draw(bake, options.seed, -1, *options.prior);
  if (!middle) return failure(middle);
  return std::move(middle->bowl);
}

Result<Forecast> foresee(const formula::Bake& bake, const Options& options) {
  Made made;
  return foresee(bake, options, made);
}

Result<Forecast> foresee(const formula::Bake& bake, const Options& options, Made& made) {
  auto out = set_out(Plan::of(bake, options), options, made, TrackSteps::usual);
  if (!out) return failure(out);
  Proving& proving = out->proving;
  if (!options.curves) proving.sample_every = 0.0 * hour;
  LeftInTheBulk left;
  auto timeline =
      forecast::timeline(out->plan, out->crowd, internal::crowd_options(proving, options), &left);
  if (!timeline) return failure(timeline);
  if (options.progress) options.progress(1);

  Forecast forecast;
  forecast.horizon = options.horizon;
  forecast.target = proving.target;
  forecast.bowl = std::move(out->middle.bowl);
  forecast.settled = std::move(out->middle.settled);
  forecast.never = timeline->never;
  forecast.ready = timeline->ready;
  forecast.fifth = spread(of_all(left.passed, &Passed::fifth));
  forecast.past = spread(of_all(left.passed, &Passed::peak));
  forecast.sour = spread(of_all(left.passed, &Passed::sour));
  auto largest = of_all(left.passed, &Passed::largest_rise);
  forecast.largest_rises = largest;
  forecast.limit = range(std::move(largest));
  forecast.largest_rise = forecast.limit.p50;
  forecast.fallen = spread(of_all(left.passed, &Passed::collapsed));
  forecast.held_by_pentosans =
      forecast.bowl.pentosan_rise / std::max(1e-6, forecast.bowl.rise_limit - 1);
  const auto resting = rests_on(bake, options, timeline->ready_hours);
  if (!resting) return failure(resting);
  forecast.guess_that_decides = guess_that_decides(*resting);
  forecast.ready_hours = numerics::sorted(timeline->ready_hours);
  if (options.curves) forecast.band = band(left, proving.sample_every.in(hour));
  forecast.draws = options.draws;
  forecast.timeline = std::move(*timeline);
  return forecast;
}

Result<DoughHours> dough_hours(const formula::Bake& bake,
                               const Options& options,
                               Time wait,
                               Made& made) {
  auto out = set_out(Plan::of(bake, options), options, made, TrackSteps::usual);
  if (!out) return failure(out);
  out->proving.sample_every = 0.0 * hour;
  CrowdOptions how = internal::crowd_options(out->proving, options);
  how.until_past = how.hours_alone = true;
  // A last stage that ends by the clock goes on as the wait for the oven.
  formula::Stage& last = out->plan.bake.stages.back();
  const bool by_the_clock = &last != out->plan.bake.bulk() && last.lasts && !last.until;
  if (by_the_clock) last.lasts = *last.lasts + wait;
  how.wait = by_the_clock ? Time{} : wait;
  LeftInTheBulk left;
  auto timeline = forecast::timeline(out->plan, out->crowd, how, &left);
  if (!timeline) return failure(timeline);
  if (by_the_clock)
    for (double& oven : timeline->oven_hours) oven -= wait.in(hour);
  return DoughHours{std::move(timeline->ready_hours),
                    of_all(left.passed, &Passed::peak),
                    std::move(timeline->oven_hours),
                    std::move(timeline->past_hours)};
}

Result<Timeline> way_alone(const formula::Bake& bake, const Options& options) {
  Made made;
  auto out = set_out(Plan::of(bake, options), options, made, TrackSteps::usual);
  if (!out) return failure(out);
  out->proving.sample_every = 0.0 * hour;
  CrowdOptions how = internal::crowd_options(out->proving, options);
  how.hours_alone = true;
  return forecast::timeline(out->plan, out->crowd, how);
}

Result<std::vector<double>> hours_to_ready(const formula::Bake& bake,
                                           const Options& options,
                                           const std::vector<Factor>& but,
                                           ChangeDough change) {
  Made made;
  return ready_alone(
      set_out(
          to_its_target(Plan::of(bake, options)), options, made, TrackSteps::for_many, but, change),
      options);
}

Result<std::vector<double>> hours_to_ready(const formula::Bake& bake,
                                           const Options& options,
                                           const std::vector<Factor>& but,
                                           Made& made) {
  return ready_alone(
      set_out(to_its_target(Plan::of(bake, options)), options, made, TrackSteps::for_many, but),
      options);
}

}  // namespace barm::forecast

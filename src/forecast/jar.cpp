#include "forecast/jar.h"

#include <algorithm>
#include <cmath>

#include "forecast/internal/crowd.h"
#include "forecast/many.h"
#include "forecast/warmth.h"

namespace barm::forecast {

namespace {

constexpr Time every = 0.25 * hour;
constexpr double shoulder = 0.85;  // of the height of a jar
constexpr double headroom = 1.25;  // over the target
constexpr double enough_ready = 0.1;

// Runs the sample of every dough at its own temperatures.
Result<Many> samples_of(const std::vector<Walking>& doughs,
                        const Proving& proving,
                        const Warmth& warmth,
                        const formula::Jar& jar,
                        const Options& options) {
  ManyOptions many;
  const numerics::Accuracy quick = many.proving.accuracy;
  many.proving = proving;
  many.proving.accuracy = quick;
  many.threads = options.threads;
  many.cancelled = options.cancelled;
  return foresee_many(
      doughs.size(),
      [&](std::size_t i, Case& to_fill) {
        to_fill = {doughs[i].dough,
                   doughs[i].parameters,
                   proving.temperature,
                   warmth.sample(jar, doughs[i].transfer_luck)};
      },
      many);
}

// The sample's curve at that time: its rise, and by how much it goes up in an hour.
struct Rising {
  double rise = 1, per_hour = 0;
};

Rising rising(const Many& many, std::size_t i, double hours) {
  const double step = every.in(hour);
  const auto at = static_cast<std::size_t>(
      std::clamp(std::floor(hours / step), 0.0, static_cast<double>(many.samples - 2)));
  const auto rise = [&](std::size_t s) {
    return static_cast<double>(many.rise[i * many.samples + s]);
  };
  const double slope = (rise(at + 1) - rise(at)) / step;
  return {rise(at) + slope * (hours - static_cast<double>(at) * step), slope};
}

}  // namespace

Mass suitable_dough(const formula::Jar& jar, double target) {
  const Length start =
      jar.height ? *jar.height * (shoulder / (headroom * target)) : 40.0 * millimetre;
  const double per_gram = (heat::height_in(volume_at_mixing(gram), jar.diameter)).in(millimetre);
  const double grams = std::floor(start.in(millimetre) / per_gram / 5) * 5;
  return std::max(5.0, grams) * gram;
}

Mass dough_up_to(Length mark, const formula::Jar& jar) {
  return (mark / heat::height_in(volume_at_mixing(gram), jar.diameter)).si() * gram;
}

Result<JarMarks> jar_marks(const formula::Bake& asked,
                           const formula::Jar& jar,
                           const Options& options) {
  const Plan plan = Plan::of(asked, options);
  const formula::Bake& bake = plan.bake;
  Made made;
  const auto book = made.middle(bake, options);
  if (!book) return failure(book);
  Proving proving = proving_of(bake, options);
  proving.sample_every = 0.0 * hour;
  const auto warmth = Warmth::of(bake, *book, proving, Branches::both);
  if (!warmth) return failure(warmth);
  auto doughs = internal::draw_doughs(plan, options, made);
  if (!doughs) return failure(doughs);
  auto kept = made.bulks(bake, options, proving, *doughs, TrackSteps::usual);
  if (!kept) return failure(kept);
  const Crowd crowd{*doughs, {}, *std::move(kept)};
  const auto bulks = ready_hours(plan, crowd, internal::crowd_options(proving, options));
  if (!bulks) return failure(bulks);
  Proving sample = warmth->sample(proving, jar);
  sample.sample_every = every;
  sample.target = 1e9;  // not the sample's business
  const auto samples = samples_of(*doughs, sample, *warmth, jar, options);
  if (!samples) return failure(samples);

  JarMarks marks;
  marks.jar = jar;
  marks.target = proving.target;
  marks.draws = options.draws;
  marks.start = heat::height_in(volume_at_mixing(jar.dough), jar.diameter);
  std::vector<double> ratios;
  std::vector<double> minutes;
  for (std::size_t i = 0; i < bulks->size(); ++i) {
    if (!std::isfinite((*bulks)[i])) continue;
    const Rising risen = rising(*samples, i, (*bulks)[i]);
    ratios.push_back(risen.rise);
    const double mm_per_hour = marks.start.in(millimetre)*risen.per_hour;
    minutes.push_back(mm_per_hour > 0 ? 60 / mm_per_hour : Passed::never);
  }
  const double there = static_cast<double>(ratios.size()) / static_cast<double>(options.draws);
  marks.never = Probability(1 - there);
  if (there < enough_ready) {
    return failure(
        ErrorCode::cannot_be_met,
        bake.file,
        "hardly any dough like this one gets there in the time looked at, so there is no "
        "mark to draw: look further with --horizon, or ask for less with --target");
  }
  marks.ready = spread(*bulks);
  marks.ratio = range(std::move(ratios));
  marks.minutes_per_mm = range(std::move(minutes));
  const double when = marks.ready.p50.value_or(proving.horizon).in(hour);
  const heat::Track own = warmth->bulk();
  marks.bulk_at_ready =
      own.empty() ? proving.temperature : Temperature::from_celsius(own.celsius_at(when));
  marks.sample_at_ready = Temperature::from_celsius(warmth->sample(jar).celsius_at(when));
  return marks;
}

}  // namespace barm::forecast

#include "forecast/jar.h"

#include <algorithm>
#include <cmath>
#include <mutex>

#include "forecast/many.h"
#include "forecast/warmth.h"
#include "numerics/quantiles.h"

namespace barm::forecast {

namespace {

constexpr Time every = 0.25 * hour;
constexpr double shoulder = 0.85;  // of the height of a jar
constexpr double headroom = 1.25;  // over the target
constexpr double enough_ready = 0.1;

Range range(std::vector<double> values) {
  const auto sample = numerics::sorted(std::move(values));
  return {numerics::quantile(sample, 0.1),
          numerics::quantile(sample, 0.5),
          numerics::quantile(sample, 0.9)};
}

// Runs all draws on one of the branches.
class Branch {
 public:
  Branch(const formula::Bake& bake, const Options& options) : bake_(bake), options_(options) {}

  template <class TrackOf>
  Result<Many> run(const Proving& proving, const TrackOf& track_of) {
    ManyOptions many;
    const numerics::Accuracy quick = many.proving.accuracy;
    many.proving = proving;
    many.proving.accuracy = quick;
    many.threads = options_.threads;
    many.cancelled = options_.cancelled;
    std::optional<Error> error;
    std::mutex guard;
    const auto fill = [&](std::size_t i, Case& to_fill) {
      const auto drawn = draw(bake_, options_.seed, static_cast<int>(i), *options_.prior);
      if (!drawn) {
        const std::scoped_lock lock(guard);
        error = drawn.error();
        return;
      }
      to_fill = {drawn->dough, drawn->parameters, proving.temperature, track_of(*drawn)};
    };
    auto result = foresee_many(static_cast<std::size_t>(options_.draws), fill, many);
    if (error) return failure(error->code, error->where, error->message);
    return result;
  }

 private:
  const formula::Bake& bake_;
  const Options& options_;
};

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

Result<JarMarks> jar_marks(const formula::Bake& bake,
                           const formula::Jar& jar,
                           const Options& options) {
  const auto book = draw(bake, options.seed, -1, *options.prior);
  if (!book) return failure(book);
  Proving proving = proving_of(bake, options);
  proving.sample_every = 0.0 * hour;
  const auto warmth = Warmth::of(bake, *book, proving, Branches::both);
  if (!warmth) return failure(warmth);
  Branch branch(bake, options);

  Proving bulk = proving;
  bulk.stop_at_target = true;
  const auto bulks =
      branch.run(bulk, [&](const Draw& drawn) { return warmth->bulk(drawn.transfer_luck); });
  if (!bulks) return failure(bulks);
  Proving sample = warmth->sample(proving, jar);
  sample.sample_every = every;
  sample.target = 1e9;  // not the sample's business
  const auto samples = branch.run(
      sample, [&](const Draw& drawn) { return warmth->sample(jar, drawn.transfer_luck); });
  if (!samples) return failure(samples);

  JarMarks marks;
  marks.jar = jar;
  marks.target = proving.target;
  marks.draws = options.draws;
  marks.start = heat::height_in(volume_at_mixing(jar.dough), jar.diameter);
  std::vector<double> ready;
  std::vector<double> ratios;
  std::vector<double> minutes;
  for (std::size_t i = 0; i < bulks->passed.size(); ++i) {
    const Passed& passed = bulks->passed[i];
    ready.push_back(passed.ready);
    if (!passed.is_ready()) continue;
    const Rising risen = rising(*samples, i, passed.ready);
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
  marks.ready = spread(ready);
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

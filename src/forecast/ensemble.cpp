#include "forecast/ensemble.h"

#include <algorithm>
#include <limits>
#include <mutex>
#include <span>

#include "forecast/many.h"
#include "forecast/rests_on.h"
#include "forecast/warmth.h"
#include "generated/constants.h"
#include "numerics/quantiles.h"

namespace barm::forecast {

namespace {

// Draws the doughs and runs them side by side. A draw that contradicts itself fails the whole.
Result<Many> many_draws(const formula::Bake& bake,
                        const Options& options,
                        const Warmth& warmth,
                        ManyOptions many,
                        std::span<const Draw> made = {}) {
  many.threads = options.threads;
  many.cancelled = options.cancelled;
  many.progress = options.progress;
  std::optional<Error> error;
  std::mutex guard;
  const auto fill = [&](std::size_t i, Case& to_fill) {
    const auto put = [&](const Draw& drawn) {
      to_fill = {drawn.dough,
                 drawn.parameters,
                 many.proving.temperature,
                 warmth.bulk(drawn.transfer_luck)};
    };
    if (i < made.size()) return put(made[i]);
    const auto drawn = draw(bake, options.seed, static_cast<int>(i), *options.prior);
    if (drawn) return put(*drawn);
    const std::scoped_lock lock(guard);
    error = drawn.error();
  };
  auto result = foresee_many(static_cast<std::size_t>(options.draws), fill, many);
  if (error) return failure(error->code, error->where, error->message);
  return result;
}

std::vector<double> of_all(const Many& many, double Passed::* what) {
  std::vector<double> hours;
  hours.reserve(many.passed.size());
  for (const Passed& passed : many.passed) hours.push_back(passed.*what);
  return hours;
}

std::vector<Band> band(const Many& many, double every) {
  static constexpr double shares[] = {0.1, 0.5, 0.9};
  std::vector<Band> out;
  for (std::size_t s = 0; s < many.samples; ++s) {
    std::vector<double> at;
    at.reserve(many.passed.size());
    for (std::size_t i = 0; i < many.passed.size(); ++i) {
      at.push_back(static_cast<double>(many.rise[i * many.samples + s]));
    }
    const auto of = numerics::quantiles(at, shares);
    out.push_back({static_cast<double>(s) * every, of[0], of[1], of[2]});
  }
  return out;
}

}  // namespace

Proving proving_of(const formula::Bake& bake, const Options& options) {
  Proving proving;
  proving.temperature = options.temperature.value_or(bake.bulk_temperature());
  proving.horizon = options.horizon;
  proving.target = options.target > 0 ? options.target : bake.target;
  for (const formula::Stage& stage : bake.stages) {
    if (stage.step != formula::Step::fold || !stage.after) continue;
    proving.handlings.push_back({*stage.after, constants::gas::fold_out.value.si()});
  }
  std::sort(proving.handlings.begin(),
            proving.handlings.end(),
            [](const Handling& a, const Handling& b) { return a.at < b.at; });
  return proving;
}

namespace {

// The dough with every number at its middle, and the way it goes.
struct Middle {
  Draw draw;
  Proving proving;
  Warmth warmth;
  Course book;
  std::vector<Stop> stops;
};

Result<Middle> middle_of(const formula::Bake& bake, const Options& options) {
  Proving proving = proving_of(bake, options);
  auto middle = draw(bake, options.seed, -1, *options.prior);
  if (!middle) return failure(middle);
  auto warmth = Warmth::of(bake, *middle, proving);
  if (!warmth) return failure(warmth);
  proving.track = warmth->bulk();
  auto book = run(middle->dough, middle->parameters, proving);
  if (!book) return failure(book);
  auto stops = journey(bake, *middle, proving);
  if (!stops) return failure(stops);
  return Middle{
      std::move(*middle), proving, std::move(*warmth), std::move(*book), std::move(*stops)};
}

Forecast told(const Middle& middle, const Options& options) {
  Forecast forecast;
  forecast.horizon = options.horizon;
  forecast.target = middle.proving.target;
  forecast.largest_rise = middle.book.largest_rise;
  forecast.book = middle.book;
  forecast.stops = middle.stops;
  forecast.bowl = middle.draw.bowl;
  forecast.settled = middle.draw.settled;
  return forecast;
}

}  // namespace

Result<Forecast> foresee_middle(const formula::Bake& bake, const Options& options) {
  const auto middle = middle_of(bake, options);
  if (!middle) return failure(middle);
  return told(*middle, options);
}

Result<Forecast> foresee(const formula::Bake& bake,
                         const Options& options,
                         std::span<const Draw> made) {
  const auto middle = middle_of(bake, options);
  if (!middle) return failure(middle);
  ManyOptions many;
  many.proving = middle->proving;
  if (!options.curves) many.proving.sample_every = 0.0 * hour;
  const auto all = many_draws(bake, options, middle->warmth, many, made);
  if (!all) return failure(all);

  Forecast forecast = told(*middle, options);
  std::vector<double> ready = of_all(*all, &Passed::ready);
  const auto resting = rests_on(bake, options, ready);
  if (!resting) return failure(resting);
  forecast.guess_that_decides = guess_that_decides(*resting);
  const auto late = static_cast<double>(std::count(ready.begin(), ready.end(), Passed::never));
  forecast.never = Probability(late / static_cast<double>(options.draws));
  forecast.ready = spread(ready);
  forecast.fifth = spread(of_all(*all, &Passed::fifth));
  forecast.past = spread(of_all(*all, &Passed::peak));
  forecast.ready_hours = numerics::sorted(std::move(ready));
  if (options.curves) forecast.band = band(*all, many.proving.sample_every.in(hour));
  forecast.draws = options.draws;
  return forecast;
}

Result<std::vector<double>> hours_to_ready(const formula::Bake& bake, const Options& options) {
  ManyOptions many;
  const numerics::Accuracy quick = many.proving.accuracy;
  many.proving = proving_of(bake, options);
  const auto middle = draw(bake, options.seed, -1, *options.prior);
  if (!middle) return failure(middle);
  const auto warmth = Warmth::of(bake, *middle, many.proving);
  if (!warmth) return failure(warmth);
  many.proving.accuracy = quick;
  many.proving.sample_every = 0.0 * hour;
  many.proving.stop_at_target = true;
  const auto all = many_draws(bake, options, *warmth, many);
  if (!all) return failure(all);
  return of_all(*all, &Passed::ready);
}

}  // namespace barm::forecast

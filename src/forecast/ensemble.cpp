#include "forecast/ensemble.h"

#include <algorithm>
#include <atomic>
#include <limits>
#include <mutex>
#include <thread>

#include "forecast/dough_of.h"
#include "forecast/levain.h"
#include "generated/constants.h"
#include "numerics/quantiles.h"

namespace barm::forecast {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

double hours_or_never(const std::optional<Time>& time) { return time ? time->in(hour) : never; }

std::optional<Time> time_or_never(double hours) {
  return hours < never ? std::optional<Time>(hours * hour) : std::nullopt;
}

Spread spread(std::vector<double> hours) {
  const auto sample = numerics::sorted(std::move(hours));
  const auto at = [&](double p) { return time_or_never(numerics::quantile(sample, p)); };
  return {at(0.05), at(0.10), at(0.50), at(0.90), at(0.95)};
}

Result<std::vector<larder::Composition>> settle(const formula::Bake& bake,
                                                const kinetics::Parameters<double>& parameters,
                                                const std::function<double()>& normal) {
  std::vector<larder::Composition> settled;
  for (const formula::Portion& portion : bake.bowl) {
    if (portion.levain && bake.levain) {
      const auto starter = larder::drawn(bake.levain->starter, normal);
      if (!starter) return failure(starter);
      const auto flour = larder::drawn(bake.levain->flour, normal);
      if (!flour) return failure(flour);
      const auto levain = fermented(*bake.levain, *starter, *flour, parameters);
      if (!levain) return failure(levain);
      settled.push_back(*levain);
      continue;
    }
    const auto composition = larder::drawn(portion.ingredient, normal);
    if (!composition) return failure(composition);
    settled.push_back(*composition);
  }
  return settled;
}

// Runs body(i) for i in 0..count on some threads; the first error stops them. Each i is
// independent, so the answer does not depend on how many threads there are.
template <class Body>
std::optional<Error> in_parallel(int count, const Options& options, const Body& body) {
  const int threads = options.threads > 0
                          ? options.threads
                          : static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
  std::atomic<int> next{0};
  std::optional<Error> error;
  std::mutex guard;
  const auto stop_with = [&](const Error& why) {
    const std::scoped_lock lock(guard);
    if (!error) error = why;
    next = count;
  };
  const auto work = [&] {
    for (int i = next++; i < count; i = next++) {
      if (options.cancelled && options.cancelled())
        return stop_with({ErrorCode::cancelled, "", "stopped"});
      if (const std::optional<Error> failed = body(i)) return stop_with(*failed);
    }
  };
  {
    std::vector<std::jthread> others;
    for (int t = 1; t < std::min(threads, count); ++t) others.emplace_back(work);
    work();
  }
  return error;
}

std::vector<Band> band(const std::vector<std::vector<float>>& rises, double every) {
  std::vector<Band> out;
  std::size_t length = std::numeric_limits<std::size_t>::max();
  for (const auto& rise : rises) length = std::min(length, rise.size());
  for (std::size_t i = 0; i < length; ++i) {
    std::vector<double> at;
    at.reserve(rises.size());
    for (const auto& rise : rises) at.push_back(static_cast<double>(rise[i]));
    const auto sample = numerics::sorted(std::move(at));
    out.push_back({static_cast<double>(i) * every,
                   numerics::quantile(sample, 0.1),
                   numerics::quantile(sample, 0.5),
                   numerics::quantile(sample, 0.9)});
  }
  return out;
}

}  // namespace

Result<Draw> draw(const formula::Bake& bake, unsigned long long seed, int index) {
  numerics::Random random(seed, static_cast<unsigned long long>(index + 1));
  const bool book = index < 0;
  Draw drawn;
  drawn.parameters = book ? kinetics::book() : kinetics::drawn(random);
  const auto normal = [&]() -> double { return book ? 0.0 : random.normal(); };
  auto settled = settle(bake, drawn.parameters, normal);
  if (!settled) return failure(settled);
  auto bowl = formula::in_the_bowl(bake, *settled);
  if (!bowl) return failure(bowl);
  drawn.dough = dough_of(*bowl, *settled);
  drawn.settled = std::move(*settled);
  drawn.bowl = std::move(*bowl);
  return drawn;
}

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

Result<Forecast> foresee(const formula::Bake& bake, const Options& options) {
  Forecast forecast;
  Proving proving = proving_of(bake, options);
  auto middle = draw(bake, options.seed, -1);
  if (!middle) return failure(middle);
  auto book = run(middle->dough, middle->parameters, proving);
  if (!book) return failure(book);

  proving.accuracy.relative = 1e-5;
  if (!options.curves) proving.sample_every = 0.0 * hour;
  const auto count = static_cast<std::size_t>(options.draws);
  std::vector<double> ready(count), fifth(count), past(count);
  std::vector<std::vector<float>> rises(options.curves ? count : 0);
  const auto error = in_parallel(options.draws, options, [&](int i) -> std::optional<Error> {
    const auto drawn = draw(bake, options.seed, i);
    if (!drawn) return drawn.error();
    const auto course = run(drawn->dough, drawn->parameters, proving);
    if (!course) return course.error();
    const auto at = static_cast<std::size_t>(i);
    ready[at] = hours_or_never(course->ready);
    fifth[at] = hours_or_never(course->fifth);
    past[at] = hours_or_never(course->peak);
    if (!options.curves) return std::nullopt;
    for (const Sample& sample : course->curve) rises[at].push_back(static_cast<float>(sample.rise));
    return std::nullopt;
  });
  if (error) return failure(error->code, error->where, error->message);

  const auto late = static_cast<double>(std::count(ready.begin(), ready.end(), never));
  forecast.never = Probability(late / static_cast<double>(options.draws));
  forecast.ready = spread(ready);
  forecast.fifth = spread(fifth);
  forecast.past = spread(past);
  forecast.ready_hours = numerics::sorted(std::move(ready));
  if (options.curves) forecast.band = band(rises, proving.sample_every.in(hour));
  forecast.horizon = options.horizon;
  forecast.target = proving.target;
  forecast.largest_rise = book->largest_rise;
  forecast.book = std::move(*book);
  forecast.bowl = std::move(middle->bowl);
  forecast.settled = std::move(middle->settled);
  forecast.draws = options.draws;
  return forecast;
}

Result<std::vector<double>> hours_to_ready(const formula::Bake& bake, const Options& options) {
  Proving proving = proving_of(bake, options);
  proving.accuracy.relative = 1e-5;
  proving.sample_every = 0.0 * hour;
  proving.stop_at_target = true;
  std::vector<double> hours(static_cast<std::size_t>(options.draws));
  const auto error = in_parallel(options.draws, options, [&](int i) -> std::optional<Error> {
    const auto drawn = draw(bake, options.seed, i);
    if (!drawn) return drawn.error();
    const auto course = run(drawn->dough, drawn->parameters, proving);
    if (!course) return course.error();
    hours[static_cast<std::size_t>(i)] = hours_or_never(course->ready);
    return std::nullopt;
  });
  if (error) return failure(error->code, error->where, error->message);
  return hours;
}

}  // namespace barm::forecast

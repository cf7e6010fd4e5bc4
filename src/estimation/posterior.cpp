#include "estimation/internal/posterior.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "estimation/internal/curve.h"
#include "forecast/many.h"

namespace barm::estimation::internal {

namespace {

constexpr double grid = 0.25;  // h between the points of a curve that is looked up

// How far a run must go to be looked up at so many hours.
double far_enough(double hours) { return grid * (std::ceil(hours / grid) + 2); }

}  // namespace

Posterior::Posterior(const DoughToRead& batch, const Readings& readings, LearnOptions options)
    : batch_(batch),
      seen_(seen_of(batch, readings)),
      noise_(batch.sample.noise_doubt),
      options_(std::move(options)) {}

Result<std::vector<double>> Posterior::log_likelihood(std::span<const double> z) const {
  std::vector<double> residuals;
  return log_likelihood(z, residuals);
}

Result<std::vector<double>> Posterior::log_likelihood(std::span<const double> z,
                                                      std::vector<double>& residuals,
                                                      forecast::Precision precision) const {
  const std::size_t d = dimension();
  const std::size_t count = z.size() / d;
  std::vector<World<double>> worlds(count);
  std::vector<double> until(count);
  for (std::size_t i = 0; i < count; ++i) {
    worlds[i] = world_of(batch_, z.data() + i * d, seen_.mark_doubt, seen_.stretch);
    const double own = model_hours(worlds[i].ln_pace, seen_.stretch, seen_.last);
    until[i] = far_enough(std::min(own, 4 * seen_.last + 4));
  }
  forecast::ManyOptions many;
  many.threads = options_.threads;
  many.precision = precision;
  many.cancelled = options_.cancelled;
  many.proving.surface = batch_.sample.surface;
  many.proving.sample_every = grid * hour;
  many.ph_too = std::ranges::any_of(seen_.data, [](const Datum& datum) { return !datum.height; });
  many.proving.horizon = *std::max_element(until.begin(), until.end()) * hour;
  const auto run = forecast::foresee_many(
      count,
      [&](std::size_t i, forecast::Case& to_fill) {
        to_fill.dough = worlds[i].dough;
        to_fill.parameters = worlds[i].parameters;
        to_fill.until = until[i];
        to_fill.track = track_of(batch_.sample, worlds[i], seen_.stretch);
      },
      many);
  if (!run) return failure(run);
  std::vector<double> ln(count);
  residuals.assign(count * seen_.data.size(), 0.0);
  std::vector<Look<double>> looks(seen_.data.size());
  for (std::size_t i = 0; i < count; ++i) {
    const Curve rise(std::span(run->rise).subspan(i * run->samples, run->samples), grid);
    const auto ph_at = [&](double at) {
      const auto curve = std::span(run->ph).subspan(i * run->samples, run->samples);
      return Curve(curve, grid).at(at).first;
    };
    const std::span<double> off = std::span(residuals).subspan(i * looks.size(), looks.size());
    double ln_doubts = 0;
    for (std::size_t j = 0; j < looks.size(); ++j) {
      const Datum& datum = seen_.data[j];
      const double at = model_hours(worlds[i].ln_pace, seen_.stretch, datum.hours);
      const auto [height, speed] = rise.at(at);
      looks[j] = {height, datum.height ? 0 : ph_at(at), speed};
      off[j] = distance(datum, looks[j], worlds[i], batch_.sample);
      ln_doubts += std::log(doubt_of(datum, speed, batch_.sample));
    }
    const double one = internal::log_likelihood(off, noise_, batch_.sample.tail) - ln_doubts;
    ln[i] = std::isfinite(one) ? one : -std::numeric_limits<double>::infinity();
  }
  return ln;
}

}  // namespace barm::estimation::internal

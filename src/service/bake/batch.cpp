#include "service/bake/batch.h"

#include <utility>

#include "forecast/draw.h"
#include "forecast/jar.h"
#include "forecast/warmth.h"
#include "service/now.h"

namespace barm::service {

namespace {

// How much dough is in the jar: as the bake says, else as its start mark shows, else what suits it.
formula::Jar filled(formula::Jar jar, const estimation::Readings& readings, double target) {
  if (!jar.dough_given) {
    jar.dough = readings.start_mark ? forecast::dough_up_to(*readings.start_mark, jar)
                                    : forecast::suitable_dough(jar, target);
  }
  return jar;
}

}  // namespace

forecast::Options Batch::as_it_stands(forecast::Options options) const {
  options.prior = &start.prior;
  options.done = ticked;
  return options;
}

Result<Batch> batch_of(formula::Bake bake,
                       const ReadBeside& beside,
                       const kinetics::JointPrior& otherwise) {
  auto clock = clock_in(beside.zone, bake);
  if (!clock) return failure(clock);
  auto start = begun(beside.culture, bake, otherwise);
  if (!start) return failure(start);
  const estimation::ReadingOptions options{
      .clock = *clock, .keep_good_rows = beside.keep_good_rows, .start_mark = beside.start_mark};
  estimation::Readings in_file;
  if (!beside.file.empty()) {
    auto read = estimation::read_readings(beside.file, options);
    if (!read) return failure(read);
    in_file = std::move(*read);
  }
  auto readings = estimation::with_typed(std::move(in_file), beside.typed, options);
  if (!readings) return failure(readings);
  return Batch{.bake = std::move(bake),
               .clock = *std::move(clock),
               .start = *std::move(start),
               .readings = *std::move(readings),
               .ticked = {},
               .now = std::nullopt};
}

Result<estimation::DoughToRead> dough_to_read(const Batch& batch,
                                              const forecast::Options& options) {
  forecast::Plan plan = forecast::Plan::of(batch.bake, options);
  const formula::Bake& bake = plan.bake;
  forecast::Proving proving = forecast::proving_of(bake, options);
  const auto book = forecast::draw(bake, options.seed, -1, batch.start.prior);
  if (!book) return failure(book);
  const auto warmth = forecast::Warmth::of(bake, *book, proving, forecast::Branches::both);
  if (!warmth) return failure(warmth);
  proving.track = warmth->bulk();
  auto dough = estimation::prepare(bake, batch.start.belief, proving);
  if (!dough) return dough;
  if (bake.jar) {
    const forecast::Proving sample =
        warmth->sample(proving, filled(*bake.jar, batch.readings, proving.target));
    dough->sample.track = forecast::track_of(sample);
    dough->sample.surface = sample.surface;
  }
  estimation::follow(*dough, batch.readings);
  dough->plan = std::move(plan);
  return dough;
}

}  // namespace barm::service

#include "forecast/feeding.h"

#include <fmt/format.h>

#include <cmath>
#include <limits>

namespace barm::forecast {

namespace {

constexpr Time horizon = 48.0 * hour;

Result<Course> one(const formula::Levain& levain, const Options& options, int index) {
  numerics::Random random(options.seed, static_cast<unsigned long long>(index + 1));
  const bool typical = index < 0;
  const auto parameters =
      typical ? kinetics::middle(*options.prior) : kinetics::drawn(random, *options.prior);
  const auto normal = [&]() -> double { return typical ? 0.0 : random.normal(); };
  const auto starter = larder::drawn(levain.starter, normal);
  if (!starter) return failure(starter);
  const auto flour = larder::drawn(levain.flour, normal);
  if (!flour) return failure(flour);
  return levain_course(levain, *starter, *flour, parameters, horizon);
}

std::optional<Time> tripled(const Course& course) {
  for (const Sample& sample : course.curve) {
    if (sample.rise >= 3) return sample.hours * hour;
  }
  return std::nullopt;
}

double hours_or_never(const std::optional<Time>& time) {
  return time ? time->in(hour) : std::numeric_limits<double>::infinity();
}

// Middle time to peak with so much fresh flour to one part of ripe starter.
Result<double> peak_hours(formula::Levain levain, double flour, const Options& options) {
  levain.water = flour * levain.water / levain.fresh_flour;
  levain.fresh_flour = flour;
  levain.ripe = 1;
  const auto course = one(levain, options, -1);
  if (!course) return failure(course);
  return hours_or_never(course->peak);
}

}  // namespace

Result<Feeding> feed(const formula::Levain& levain, Mass wanted, const Options& options) {
  const auto book = one(levain, options, -1);
  if (!book) return failure(book);
  std::vector<double> peaks;
  std::vector<double> triples;
  for (int i = 0; i < options.draws; ++i) {
    if (options.cancelled && options.cancelled())
      return failure(ErrorCode::cancelled, "", "stopped");
    const auto course = one(levain, options, i);
    if (!course) return failure(course);
    peaks.push_back(hours_or_never(course->peak));
    triples.push_back(hours_or_never(tripled(*course)));
    if (options.progress) options.progress((i + 1.0) / options.draws);
  }
  Feeding feeding;
  feeding.fresh_flour = levain.fresh_flour / levain.ripe;
  feeding.water = levain.water / levain.ripe;
  feeding.peak = spread(std::move(peaks));
  feeding.tripled = spread(std::move(triples));
  feeding.largest_rise = book->largest_rise;
  if (book->peak) {
    for (const Sample& sample : book->curve) {
      if (sample.hours <= book->peak->in(hour)) feeding.ph_at_peak = Ph(sample.ph);
    }
  }
  const double parts = 1 + feeding.fresh_flour + feeding.water;
  feeding.ripe_mass = wanted / parts;
  feeding.flour_mass = wanted * (feeding.fresh_flour / parts);
  feeding.water_mass = wanted * (feeding.water / parts);
  return feeding;
}

Result<Feeding> feed_to_peak_in(const formula::Levain& levain,
                                Mass wanted,
                                Time hours_until,
                                const Options& options) {
  // More fresh flour, later peak: bisect on its logarithm. Yeast raises a hundred times its weight.
  const double least = levain.yeasted() ? 20 : 0.25;
  const double most = levain.yeasted() ? 4000 : 20;
  const double goal = hours_until.in(hour);
  const auto soonest = peak_hours(levain, least, options);
  if (!soonest) return failure(soonest);
  const auto latest = peak_hours(levain, most, options);
  if (!latest) return failure(latest);
  if (goal < *soonest || goal > *latest) {
    const auto takes = [](double hours) {
      return std::isfinite(hours) ? fmt::format("takes {:.1f} h", hours)
                                  : "has no peak in two days";
    };
    return failure(
        ErrorCode::cannot_be_met,
        "",
        fmt::format("at {:.0f} °C no feeding peaks after {:.1f} h: 1 part {} to {} flour {}, to {} "
                    "flour it {}. Change the temperature or the hour of feeding",
                    levain.temperature.celsius(),
                    goal,
                    levain.yeasted() ? levain.starter.name : "ripe",
                    least,
                    takes(*soonest),
                    most,
                    takes(*latest)));
  }
  double low = std::log(least);
  double high = std::log(most);
  while (high - low > 0.002) {
    const double middle = 0.5 * (low + high);
    const auto peak = peak_hours(levain, std::exp(middle), options);
    if (!peak) return failure(peak);
    (*peak < goal ? low : high) = middle;
  }
  formula::Levain fed = levain;
  fed.ripe = 1;
  fed.water = std::exp(low) * levain.water / levain.fresh_flour;
  fed.fresh_flour = std::exp(low);
  return feed(fed, wanted, options);
}

}  // namespace barm::forecast

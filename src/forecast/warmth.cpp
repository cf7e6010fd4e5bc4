#include "forecast/warmth.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "generated/constants.h"

namespace barm::forecast {

namespace {

bool has_its_own_warmth(const formula::Bake& bake, Temperature place) {
  const formula::Stage* bulk = bake.bulk();
  const bool described =
      bulk != nullptr && (bulk->surroundings.vessel || bulk->surroundings.opens_at ||
                          bulk->surroundings.width || bulk->surroundings.each);
  return described || bake.mixed_temperature().value_or(place) != place;
}

}  // namespace

std::vector<heat::Warming> warming_of(const Course& course) {
  // [W/kg] for each mmol/kg an hour
  constexpr double heat = constants::dough_heat::of_fermentation.value.in(joule / millimole) / 3600;
  std::vector<heat::Warming> warming;
  for (std::size_t i = 1; i < course.curve.size(); ++i) {
    const Sample& before = course.curve[i - 1];
    const Sample& after = course.curve[i];
    const double rate = (after.fermented - before.fermented) / (after.hours - before.hours);
    warming.push_back({0.5 * (before.hours + after.hours), heat * rate});
  }
  return warming;
}

Result<Warmth> Warmth::of(const formula::Bake& bake,
                          const Draw& book,
                          const Proving& proving,
                          Branches branches) {
  Warmth warmth;
  warmth.makeup_ = makeup_of(book);
  warmth.start_ = bake.mixed_temperature().value_or(proving.temperature);
  const formula::Stage* bulk = bake.bulk();
  double from = 0;
  const auto stay = [&](const formula::Stage& stage, Temperature place, double rise, Time lasts) {
    if (lasts <= Time{}) return;
    const Mass mass = stage.surroundings.each.value_or(book.bowl.dough);
    warmth.stays_.push_back(
        {stage.surroundings, mass, place_of(stage, place), place, rise, from, lasts});
    from += lasts.in(hour);
  };
  const auto left = [&] { return proving.horizon - from * hour; };
  for (const formula::Stage& stage : bake.stages) {
    if (bulk == nullptr || &stage == bulk) break;
    if (stage.step == formula::Step::cold)
      stay(stage, stage.temperature, 1, std::min(left(), stage.lasts.value_or(left())));
  }
  warmth.follows_ = !warmth.stays_.empty() || has_its_own_warmth(bake, proving.temperature);
  stay(bulk != nullptr ? *bulk : formula::Stage{},
       proving.temperature,
       0.5 * (1 + proving.target),
       left());
  // The heat of fermentation depends on the warmth and the other way round: twice is enough, since
  // a degree more changes the heat by a tenth, and the heat a degree or two.
  Proving trial = proving;
  trial.handlings.clear();
  trial.stop_at_target = false;
  trial.sample_every = 0.5 * hour;
  const int runs = warmth.follows_ ? 2 : branches == Branches::both ? 1 : 0;
  for (int i = 0; i < runs; ++i) {
    trial.track = warmth.bulk();
    const auto course = run(book.dough, book.parameters, trial);
    if (!course) return failure(course);
    warmth.warming_ = warming_of(*course);
  }
  return warmth;
}

// From place to place: the layers stay as they are while the shape does.
template <class BodyOf, class PlaceOf>
std::vector<Warmth::Felt> Warmth::through(const BodyOf& body_of,
                                          const PlaceOf& place_of_stay) const {
  // Coarser than elsewhere, for many doughs are warmed so: within 0.05 K of the finest.
  constexpr heat::Method coarse{.layers = 8, .step = 0.1 * hour, .doubles_after = 16};
  constexpr double another_shape = 0.2;  // of the exponent
  std::vector<Felt> out;
  heat::Profile profile = heat::even(start_);
  std::optional<heat::Body> before;
  for (const Stay& stay : stays_) {
    const heat::Body body = body_of(stay);
    if (before && std::abs(before->shape.exponent - body.shape.exponent) >= another_shape)
      profile = {heat::mean_celsius(profile, before->shape)};
    std::vector<heat::Warming> warming;
    for (const heat::Warming& one : warming_)
      warming.push_back({one.from - stay.from, one.per_mass});
    const auto warmed = heat::warm(body, profile, place_of_stay(stay), warming, stay.lasts, coarse);
    out.push_back({stay.from, warmed.readings()});
    profile = warmed.end;
    before = body;
  }
  return out;
}

heat::Track Warmth::track_of(const std::vector<Felt>& stays, double step) {
  heat::Track track;
  for (const Felt& stay : stays)
    track = track.then(stay.from, heat::Track::through(stay.readings, step));
  return track;
}

heat::Track Warmth::bulk(double luck) const {
  return follows_ ? track_of(felt(luck)) : heat::Track();
}

std::vector<Warmth::Felt> Warmth::felt(double luck) const {
  return through(
      [&](const Stay& stay) {
        return body_in(stay.surroundings,
                       stay.surroundings.vessel.value_or(formula::Vessel::tub),
                       stay.mass,
                       makeup_,
                       stay.kept,
                       stay.rise,
                       luck);
      },
      [](const Stay& stay) { return stay.place; });
}

heat::Track Warmth::sample(const formula::Jar& jar, double luck) const {
  return track_of(through(
      [&](const Stay& stay) {
        const Temperature about = jar.temperature.value_or(stay.place.settles);
        return body_in(jar, makeup_, about, stay.rise, luck);
      },
      [&](const Stay& stay) {
        if (!jar.temperature) return stay.place;
        heat::Place place;
        place.settles = place.opens = *jar.temperature;
        return place;
      }));
}

Proving Warmth::sample(const Proving& bulk, const formula::Jar& jar, double luck) const {
  Proving proving = bulk;
  proving.track = sample(jar, luck);
  proving.handlings.clear();
  const double rise = stays_.back().rise;
  proving.surface = surface_of(heat::height_in(volume_at_mixing(jar.dough), jar.diameter) * rise);
  return proving;
}

BulksByLuck::BulksByLuck(Warmth warmth) : warmth_(std::move(warmth)) {
  for (int luck = -farthest; luck <= farthest; ++luck) at_.push_back(warmth_.felt(luck));
}

// Lagrange's cubic through the four nearest, at x between the second (0) and the third (1):
//     -x (x-1)(x-2)/6,  (x+1)(x-1)(x-2)/2,  -(x+1) x (x-2)/2,  (x+1) x (x-1)/6
heat::Track BulksByLuck::operator()(double luck, double step) const {
  if (std::abs(luck) >= farthest) return Warmth::track_of(warmth_.felt(luck), step);
  const double place = std::clamp(std::floor(luck) + farthest, 1.0, 2.0 * farthest - 2);
  const double x = luck + farthest - place;
  const double share[4] = {-x * (x - 1) * (x - 2) / 6,
                           (x + 1) * (x - 1) * (x - 2) / 2,
                           -(x + 1) * x * (x - 2) / 2,
                           (x + 1) * x * (x - 1) / 6};
  const auto first = static_cast<std::size_t>(place) - 1;
  std::vector<Warmth::Felt> stays = at_[first];
  for (std::size_t s = 0; s < stays.size(); ++s) {
    for (std::size_t i = 0; i < stays[s].readings.size(); ++i) {
      double celsius = 0;
      for (std::size_t k = 0; k < 4; ++k)
        celsius += share[k] * at_[first + k][s].readings[i].temperature.celsius();
      stays[s].readings[i].temperature = Temperature::from_celsius(celsius);
    }
  }
  return Warmth::track_of(stays, step);
}

}  // namespace barm::forecast

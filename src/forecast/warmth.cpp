#include "forecast/warmth.h"

#include <algorithm>

#include "generated/constants.h"

namespace barm::forecast {

namespace {

bool has_its_own_warmth(const formula::Bake& bake, Temperature place) {
  const formula::Stage* bulk = bake.bulk();
  const bool described = bulk != nullptr && (bulk->standing.vessel || bulk->standing.opens_at ||
                                             bulk->standing.width || bulk->standing.each);
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
  warmth.follows_ = has_its_own_warmth(bake, proving.temperature);
  warmth.makeup_ = makeup_of(book);
  warmth.kept_ = proving.temperature;
  warmth.lasts_ = proving.horizon;
  warmth.rise_ = 0.5 * (1 + proving.target);
  warmth.start_ = bake.mixed_temperature().value_or(proving.temperature);
  const formula::Stage* bulk = bake.bulk();
  if (bulk != nullptr) warmth.standing_ = bulk->standing;
  warmth.mass_ = warmth.standing_.each.value_or(book.bowl.dough);
  warmth.place_ = place_of(bulk != nullptr ? *bulk : formula::Stage{}, proving.temperature);
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

heat::Body Warmth::bulk_body(double luck) const {
  return body_in(standing_,
                 standing_.vessel.value_or(formula::Vessel::tub),
                 mass_,
                 makeup_,
                 kept_,
                 rise_,
                 luck);
}

heat::Track Warmth::bulk(double luck) const {
  if (!follows_) return {};
  return heat::warm(bulk_body(luck), heat::even(start_), place_, warming_, lasts_).track();
}

heat::Track Warmth::sample(const formula::Jar& jar, double luck) const {
  heat::Place place = place_;
  if (jar.temperature) {
    place = {};
    place.settles = place.opens = *jar.temperature;
  }
  const heat::Body body = body_in(jar, makeup_, place.settles, rise_, luck);
  return heat::warm(body, heat::even(start_), place, warming_, lasts_).track();
}

Proving Warmth::sample(const Proving& bulk, const formula::Jar& jar, double luck) const {
  Proving proving = bulk;
  proving.track = sample(jar, luck);
  proving.handlings.clear();
  proving.surface = surface_of(heat::height_in(volume_at_mixing(jar.dough), jar.diameter) * rise_);
  return proving;
}

}  // namespace barm::forecast

#include "forecast/internal/way.h"

#include <algorithm>
#include <cmath>

#include "generated/constants.h"

namespace barm::forecast::internal {

using formula::Stage;
using formula::Step;
using formula::Vessel;
using kinetics::StateOf;
using DenseStep = numerics::DenseStep<kinetics::state_count>;
using System = kinetics::System<double>;

namespace {

constexpr Time usual_proof = 2.0 * hour;

double gas_out(Step step) {
  if (step == Step::divide) return constants::gas::divide_out.value.si();
  if (step == Step::shape) return constants::gas::shape_out.value.si();
  if (step == Step::fold) return constants::gas::fold_out.value.si();
  return 0;
}

std::vector<const Stage*> folds_of(const formula::Bake& bake) {
  std::vector<const Stage*> folds;
  for (const Stage& stage : bake.stages) {
    if (stage.step == Step::fold && stage.after) folds.push_back(&stage);
  }
  return folds;
}

std::optional<Time> lasting(const Stage& stage) {
  if (stage.step == Step::proof && !stage.until && !stage.lasts) return usual_proof;
  return stage.lasts;
}

}  // namespace

Way::Way(const formula::Bake& bake, const Draw& draw, const Proving& proving)
    : bake_(bake),
      draw_(draw),
      proving_(proving),
      makeup_(makeup_of(draw)),
      track_(track_of(proving)),
      start_celsius_(track_.segments().front().celsius),
      celsius_(start_celsius_),
      y_(kinetics::at_mixing(draw.dough, draw.parameters)),
      target_(proving.target),
      profile_{start_celsius_} {}

Result<std::vector<Stop>> Way::walk(std::span<const Stage> stages) {
  std::vector<Stop> stops;
  for (const Stage& stage : stages) {
    if (stage.step == Step::mix || stage.step == Step::fold) continue;
    const double begin = t_;
    bool reached = true;
    if (stage.step == Step::divide || stage.step == Step::shape) {
      handle(stage.step);
    } else {
      const auto done = stand(stage);
      if (!done) return failure(done);
      reached = *done;
    }
    stops.push_back(stop(stage.step, begin, reached));
    if (!reached || t_ >= proving_.horizon.in(hour)) break;
  }
  return stops;
}

// Takes gas out and, where the dough is worked through, evens out its warmth.
void Way::handle(Step step) {
  const auto terms = terms_at(celsius_);
  y_[kinetics::gas_held] -=
      gas_out(step) * kinetics::gas_in_bubbles(y_[kinetics::gas_held], terms.gas);
  if (step == Step::fold) return;
  least_room_ = no_end;
  divided_ = true;
  if (profile_.size() > 1) {
    celsius_ = heat::mean_celsius(profile_, body_.shape);
    profile_ = {celsius_};
  }
}

Result<bool> Way::stand(const Stage& stage) {
  enter(stage);
  const auto done = ferment_in(stage, ratio_of(stage));
  leave();
  return done;
}

std::optional<double> Way::ratio_of(const Stage& stage) const {
  if (stage.step == Step::bulk && !stage.until && !stage.lasts) return target_;
  return stage.until;
}

double Way::end_of(const Stage& stage) const {
  const double horizon = proving_.horizon.in(hour);
  const auto lasts = lasting(stage);
  return lasts ? std::min(horizon, begun_ + lasts->in(hour)) : horizon;
}

void Way::enter(const Stage& stage) {
  begun_ = t_;
  least_room_ = no_end;
  const double lasts = end_of(stage) - begun_;
  // The bulk that begins the way has the temperature of the run, whatever the file says.
  conducts_ = lasts > 0 && (t_ > 0 || stage.step != Step::bulk);
  if (conducts_) come_into_place(stage, lasts);
}

Result<bool> Way::ferment_in(const Stage& stage, std::optional<double> ratio) {
  const double until = end_of(stage);
  bool reached = false;
  if (stage.step == Step::bulk) {
    for (const Stage* fold : folds_of(bake_)) {
      const double at = begun_ + fold->after->in(hour);
      if (at <= t_ || at >= until || reached || short_of_room_) continue;
      const auto done = ferment(at, ratio);
      if (!done) return failure(done);
      reached = *done;
      if (!reached) handle(Step::fold);
    }
  }
  if (!reached && t_ < until) {
    const auto done = ferment(until, ratio);
    if (!done) return failure(done);
    reached = *done;
  }
  return reached || (!ratio && !short_of_room_);
}

// Out of the place, with the warmth layer by layer as the stage ends.
void Way::leave() {
  if (t_ <= begun_) return;
  if (!conducts_) {
    profile_ = {celsius_};
    return;
  }
  const auto warmed = heat::warm(body_, profile_, place_, warming_, (t_ - begun_) * hour);
  profile_ = warmed.end;
  celsius_ = warmed.moments.back().working;
}

Stop Way::stop(Step step, double begin, bool reached) const {
  const auto terms = terms_at(celsius_);
  const System system(terms, kinetics::present(draw_.dough));
  const double rise = system.rise(y_);
  return {step,
          begin * hour,
          t_ * hour,
          rise,
          y_[kinetics::acidity],
          system.limit(y_) / rise - 1,
          reached,
          std::min(least_room_, system.limit(y_) / rise - 1),
          Temperature::from_celsius(celsius_)};
}

kinetics::Terms<double> Way::terms_at(double celsius) const {
  return kinetics::terms(
      draw_.dough, draw_.parameters, celsius, start_celsius_, {proving_.surface});
}

double Way::rise() const {
  const auto terms = terms_at(celsius_);
  return System(terms, kinetics::present(draw_.dough)).rise(y_);
}

// The heat the dough makes as it stands [W/kg]; where it goes cold it makes less, and what it
// makes then matters little.
double Way::making() const {
  const auto terms = terms_at(celsius_);
  StateOf<double> dy;
  System(terms, kinetics::present(draw_.dough))(0, y_, dy);
  return constants::dough_heat::of_fermentation.value.in(joule / millimole) / 3600 *
         kinetics::hexose_fermented(dy);
}

// The dough comes into a stage's place: its body there, and its temperatures for so long.
void Way::come_into_place(const Stage& stage, double lasts) {
  const bool in_pieces = divided_ || stage.step == Step::proof;
  const Vessel usual = in_pieces ? Vessel::basket : Vessel::tub;
  const Mass whole = in_pieces && draw_.bowl.pieces > 0 ? draw_.bowl.piece : draw_.bowl.dough;
  const Mass mass = stage.standing.each.value_or(whole);
  const heat::Body body =
      body_in(stage.standing,
              stage.standing.vessel.value_or(usual),
              mass,
              makeup_,
              Temperature::from_celsius(0.5 * (celsius_ + stage.temperature.celsius())),
              std::max(1.0, rise()),
              draw_.transfer_luck);
  if (profile_.size() > 1 && !same_shape(body)) {
    profile_ = {heat::mean_celsius(profile_, body_.shape)};
  }
  body_ = body;
  place_ = place_of(stage, stage.temperature);
  warming_ = {{0, making()}};
  if (stage.temperature < Temperature::from_celsius(celsius_)) fade();
  track_ = heat::warm(body_, profile_, place_, warming_, lasts * hour).track();
  track_begin_ = t_;
}

// A dough that goes cold makes heat as its own temperature lets it: half as much for every 8 K
// (the sensitivity of heat.toml), by its temperatures without any heat of its own.
void Way::fade() {
  constexpr double bend = constants::dough_heat::sensitivity.value.si();
  const double now = warming_.front().per_mass;
  const auto cooling = heat::warm(body_, profile_, place_, {}, 24.0 * hour, {16, 0.5 * hour});
  warming_.clear();
  for (const heat::Moment& moment : cooling.moments) {
    warming_.push_back({moment.hours, now * std::exp(bend * (moment.working - celsius_))});
  }
}

bool Way::same_shape(const heat::Body& body) const {
  return std::abs(body.shape.exponent - body_.shape.exponent) < 0.2;
}

// Ferments up to `until` hours or to the ratio, through the track's steps; true when the ratio
// was reached.
Result<bool> Way::ferment(double until, std::optional<double> ratio) {
  while (t_ < until && !short_of_room_) {
    const auto segments = track_.segments();
    const double into = t_ - track_begin_;
    std::size_t i = 0;
    while (i + 1 < segments.size() && segments[i + 1].from <= into + 1e-9) ++i;
    celsius_ = segments[i].celsius;
    if (ratio && rise() >= *ratio) return true;
    const double end =
        i + 1 < segments.size() ? std::min(until, track_begin_ + segments[i + 1].from) : until;
    const auto done = ferment_at_one(end, ratio);
    if (!done || *done) return done;
  }
  return false;
}

Result<bool> Way::ferment_at_one(double until, std::optional<double> ratio) {
  const auto terms = terms_at(celsius_);
  const System system(terms, kinetics::present(draw_.dough));
  bool reached = false;
  numerics::Statistics statistics;
  StateOf<double> y = y_;
  double t = t_;
  const auto watch = [&](const DenseStep& step) {
    const double before = system.rise(step.y_begin);
    const double after = system.rise(step.y_end);
    if (!ratio || after < *ratio) {
      least_room_ = std::min(least_room_, system.limit(step.y_end) / after - 1);
      short_of_room_ = least_room_ < least_wanted_;
      if (short_of_room_) return false;
    }
    if (!ratio || before >= *ratio || after < *ratio) return true;
    const auto g = [&](double, const StateOf<double>& state) {
      return system.rise(state) - *ratio;
    };
    t_ = numerics::crossing(step, step.begin, step.end, before - *ratio, after - *ratio, g);
    y_ = step.at(t_);
    reached = true;
    return false;
  };
  const auto ending = numerics::integrate<kinetics::state_count>(
      system, t, y, until, proving_.accuracy, statistics, watch);
  if (ending == numerics::Ending::too_many_steps || ending == numerics::Ending::not_finite) {
    return failure(ErrorCode::no_convergence,
                   "",
                   "the run of the stages did not settle; please report this bake");
  }
  if (!reached) {
    y_ = y;
    t_ = t;
  }
  return reached;
}

}  // namespace barm::forecast::internal

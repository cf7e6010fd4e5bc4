#include "forecast/internal/dough_on_its_way.h"

#include <algorithm>
#include <cmath>

#include "generated/constants.h"
#include "kinetics/system.h"

namespace barm::forecast::internal {

using formula::Stage;
using formula::Step;
using formula::Vessel;
using System = kinetics::System<double>;

namespace {

constexpr double no_target = 1e9;   // of volume: a leg that ends by time alone
constexpr double same_shape = 0.2;  // of the exponent

// Coarser than elsewhere, for many doughs go this way: within 0.05 K of the finest.
constexpr heat::Method on_the_way{.layers = 8, .step = 0.1 * hour, .doubles_after = 16};

std::optional<Time> lasting(const Stage& stage) {
  return stage.until || stage.lasts ? stage.lasts : formula::row(stage.step).usual;
}

}  // namespace

DoughOnItsWay::DoughOnItsWay(const Walking& dough, const Proving& proving, heat::Track bulk)
    : dough_(&dough),
      proving_(&proving),
      track_(std::move(bulk)),
      start_celsius_(track_.segments().front().celsius),
      any_warmth_(std::make_shared<const kinetics::DoughTerms<double>>(
          kinetics::dough_terms(dough.dough, dough.parameters, start_celsius_, {proving.surface}))),
      celsius_(start_celsius_),
      y_(kinetics::at_mixing(dough.dough, dough.parameters)),
      profile_{start_celsius_} {}

double DoughOnItsWay::own(double clock) const {
  return dough_->pace ? dough_->pace->own(clock) : clock;
}

double DoughOnItsWay::clock(double own) const {
  return dough_->pace ? dough_->pace->clock(own) : own;
}

void DoughOnItsWay::handle(Step step) {
  const auto terms = terms_at(celsius_);
  y_[kinetics::gas_held] -=
      formula::row(step).gas_out * kinetics::gas_in_bubbles(y_[kinetics::gas_held], terms.gas);
  least_room_ = no_end;
  divided_ = true;
  if (profile_.size() > 1) {
    celsius_ = heat::mean_celsius(profile_, body_.shape);
    profile_ = {celsius_};
  }
}

double DoughOnItsWay::end_of(const Stage& stage) const {
  const double horizon = proving_->horizon.in(hour);
  const auto lasts = lasting(stage);
  return lasts ? std::min(horizon, begun_ + lasts->in(hour)) : horizon;
}

void DoughOnItsWay::enter(const Stage& stage, bool up_to_the_bulk) {
  begun_ = t_;
  until_ = std::max(begun_, end_of(stage));
  least_room_ = no_end;
  settled_.clear();
  conducts_ = !up_to_the_bulk && until_ > begun_;
  if (conducts_) come_into_place(stage);
}

Case DoughOnItsWay::leg(std::optional<double> ratio, const std::vector<Handling>& folds) const {
  Case leg{dough_->dough, dough_->parameters};
  leg.under_way = UnderWay{y_, own(t_), start_celsius_};
  std::vector<heat::Segment> segments;
  segments.reserve(track_.segments().size());
  for (const heat::Segment& segment : track_.segments())
    segments.push_back({own(track_begin_ + segment.from), segment.celsius});
  leg.track = heat::Track::of(std::move(segments));
  leg.handlings.emplace();
  for (const Handling& fold : folds)
    leg.handlings->push_back({own(fold.at.in(hour)) * hour, fold.gas_out});
  leg.until = own(until_);
  leg.target = ratio.value_or(no_target);
  leg.least_room = least_wanted_;
  leg.any_warmth = any_warmth_;
  return leg;
}

bool DoughOnItsWay::take(const Gone& gone, std::optional<double> ratio) {
  y_ = gone.state;
  t_ = gone.passed.end >= own(until_) ? until_ : std::min(until_, clock(gone.passed.end));
  if (t_ > begun_) celsius_ = track_.celsius_at(std::max(0.0, t_ - track_begin_ - 1e-6));
  least_room_ = std::min(least_room_, gone.passed.least_room);
  if (least_room_ < least_wanted_) return false;
  return !ratio || gone.passed.is_ready();
}

void DoughOnItsWay::leave() {
  if (t_ <= begun_) return;
  if (!conducts_) {
    profile_ = {celsius_};
    return;
  }
  if (t_ < until_ || settled_.empty()) {
    const auto warmed =
        heat::warm(body_, profile_, place_, warming_, (t_ - begun_) * hour, on_the_way);
    profile_ = warmed.end;
    celsius_ = warmed.moments.back().working;
    return;
  }
  profile_ = settled_;
}

Stop DoughOnItsWay::stop(Step step, double begin, bool reached) const {
  const auto terms = terms_at(celsius_);
  const System system(terms, kinetics::present(dough_->dough));
  const double rise = system.rise(y_);
  const double room = system.limit(y_) / rise - 1;
  return {step,
          begin * hour,
          t_ * hour,
          rise,
          y_[kinetics::acidity],
          room,
          reached,
          std::min(least_room_, room),
          Temperature::from_celsius(celsius_),
          y_};
}

kinetics::Terms<double> DoughOnItsWay::terms_at(double celsius) const {
  return kinetics::terms_at(celsius, *any_warmth_, dough_->dough, dough_->parameters);
}

double DoughOnItsWay::rise() const {
  const auto terms = terms_at(celsius_);
  return System(terms, kinetics::present(dough_->dough)).rise(y_);
}

// The heat the dough makes as it stands [W/kg]; where it goes cold it makes less, and what it
// makes then matters little.
double DoughOnItsWay::making() const {
  const auto terms = terms_at(celsius_);
  kinetics::StateOf<double> dy;
  System(terms, kinetics::present(dough_->dough))(0, y_, dy);
  return constants::dough_heat::of_fermentation.value.in(joule / millimole) / 3600 *
         kinetics::hexose_fermented(dy);
}

// The dough comes into a stage's place: its body there, and its temperatures for so long.
void DoughOnItsWay::come_into_place(const Stage& stage) {
  const bool in_pieces = divided_ || stage.step == Step::proof;
  const Vessel usual = in_pieces ? Vessel::basket : Vessel::tub;
  const Mass mass = stage.surroundings.each.value_or(in_pieces ? dough_->piece : dough_->whole);
  const heat::Body body =
      body_in(stage.surroundings,
              stage.surroundings.vessel.value_or(usual),
              mass,
              dough_->makeup,
              Temperature::from_celsius(0.5 * (celsius_ + stage.temperature.celsius())),
              std::max(1.0, rise()),
              dough_->transfer_luck);
  if (profile_.size() > 1 && std::abs(body.shape.exponent - body_.shape.exponent) >= same_shape)
    profile_ = {heat::mean_celsius(profile_, body_.shape)};
  body_ = body;
  place_ = place_of(stage, stage.temperature);
  warming_ = {{0, making()}};
  if (stage.temperature < Temperature::from_celsius(celsius_)) fade();
  const auto warmed =
      heat::warm(body_, profile_, place_, warming_, (until_ - begun_) * hour, on_the_way);
  track_ = warmed.track();
  track_begin_ = t_;
  settled_ = warmed.end;
}

// A dough that goes cold makes heat as its own temperature lets it: half as much for every 8 K
// (the sensitivity of heat.toml), by its temperatures without any heat of its own.
void DoughOnItsWay::fade() {
  constexpr double bend = constants::dough_heat::sensitivity.value.si();
  const double now = warming_.front().per_mass;
  const auto cooling =
      heat::warm(body_, profile_, place_, {}, (until_ - begun_) * hour, on_the_way);
  warming_.clear();
  for (const heat::WarmthAt& moment : cooling.moments) {
    warming_.push_back({moment.hours, now * std::exp(bend * (moment.working - celsius_))});
  }
}

}  // namespace barm::forecast::internal

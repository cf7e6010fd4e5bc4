#include "forecast/journey.h"

#include "generated/constants.h"
#include "kinetics/system.h"

namespace barm::forecast {

namespace {

using formula::Stage;
using formula::Step;
using kinetics::StateOf;
using DenseStep = numerics::DenseStep<kinetics::state_count>;

constexpr Time usual_proof = 2.0 * hour;

// A dough on its way: its state, the hours behind it, and how much volume it had at mixing.
struct OnItsWay {
  const kinetics::Dough& dough;
  const kinetics::Parameters<double>& parameters;
  const Proving& proving;
  StateOf<double> y;
  double t = 0;
};

double gas_out(Step step) {
  if (step == Step::divide) return constants::gas::divide_out.value.si();
  if (step == Step::shape) return constants::gas::shape_out.value.si();
  if (step == Step::fold) return constants::gas::fold_out.value.si();
  return 0;
}

kinetics::Terms<double> terms_at(const OnItsWay& way, Temperature temperature) {
  return kinetics::terms(way.dough,
                         way.parameters,
                         temperature.celsius(),
                         way.proving.temperature.celsius(),
                         {way.proving.surface});
}

void handle(OnItsWay& way, Step step, Temperature temperature) {
  const auto terms = terms_at(way, temperature);
  way.y[kinetics::gas_held] -=
      gas_out(step) * kinetics::gas_in_bubbles(way.y[kinetics::gas_held], terms.gas);
}

// Ferments up to `until` hours or to the ratio; true when the ratio was reached.
Result<bool> ferment(OnItsWay& way,
                     Temperature temperature,
                     double until,
                     std::optional<double> ratio) {
  const auto terms = terms_at(way, temperature);
  const kinetics::System<double> system(terms, kinetics::present(way.dough));
  bool reached = false;
  numerics::Statistics statistics;
  const auto watch = [&](const DenseStep& step) {
    const double before = system.rise(step.y_begin);
    const double after = system.rise(step.y_end);
    if (!ratio || before >= *ratio || after < *ratio) return true;
    const auto g = [&](double, const StateOf<double>& y) { return system.rise(y) - *ratio; };
    const double at =
        numerics::crossing(step, step.begin, step.end, before - *ratio, after - *ratio, g);
    way.y = step.at(at);
    way.t = at;
    reached = true;
    return false;
  };
  StateOf<double> y = way.y;
  double t = way.t;
  const auto ending = numerics::integrate<kinetics::state_count>(
      system, t, y, until, way.proving.accuracy, statistics, watch);
  if (ending == numerics::Ending::too_many_steps || ending == numerics::Ending::not_finite) {
    return failure(ErrorCode::no_convergence,
                   "",
                   "the run of the stages did not settle; please report this bake");
  }
  if (!reached) {
    way.y = y;
    way.t = t;
  }
  return reached;
}

std::vector<const Stage*> folds_of(const formula::Bake& bake) {
  std::vector<const Stage*> folds;
  for (const Stage& stage : bake.stages) {
    if (stage.step == Step::fold && stage.after) folds.push_back(&stage);
  }
  return folds;
}

// Goes through one stage; the bulk stops for its folds.
Result<bool> go_through(OnItsWay& way,
                        const formula::Bake& bake,
                        const Stage& stage,
                        Temperature temperature) {
  const double horizon = way.proving.horizon.in(hour);
  const double begin = way.t;
  std::optional<double> ratio = stage.until;
  std::optional<Time> lasts = stage.lasts;
  if (stage.step == Step::bulk && !ratio && !lasts) ratio = way.proving.target;
  if (stage.step == Step::proof && !ratio && !lasts) lasts = usual_proof;
  const double until = std::min(horizon, lasts ? begin + lasts->in(hour) : horizon);
  bool reached = false;
  if (stage.step == Step::bulk) {
    for (const Stage* fold : folds_of(bake)) {
      const double at = begin + fold->after->in(hour);
      if (at <= way.t || at >= until || reached) continue;
      const auto done = ferment(way, temperature, at, ratio);
      if (!done) return failure(done);
      reached = *done;
      if (!reached) handle(way, Step::fold, temperature);
    }
  }
  if (reached || way.t >= until) return reached || !ratio;
  const auto done = ferment(way, temperature, until, ratio);
  if (!done) return failure(done);
  return *done || !ratio;
}

Stop stop_at(const OnItsWay& way, Step step, double begin, Temperature temperature, bool reached) {
  const auto terms = terms_at(way, temperature);
  const kinetics::System<double> system(terms, kinetics::present(way.dough));
  const double rise = system.rise(way.y);
  return {step,
          begin * hour,
          way.t * hour,
          rise,
          way.y[kinetics::acidity],
          system.limit(way.y) / rise - 1,
          reached};
}

}  // namespace

Result<std::vector<Stop>> journey(const formula::Bake& bake,
                                  const kinetics::Dough& dough,
                                  const kinetics::Parameters<double>& parameters,
                                  const Proving& proving) {
  OnItsWay way{dough, parameters, proving, kinetics::at_mixing(dough, parameters)};
  std::vector<Stop> stops;
  Temperature here = proving.temperature;
  for (const Stage& stage : bake.stages) {
    if (stage.step == Step::mix || stage.step == Step::fold) continue;
    const double begin = way.t;
    bool reached = true;
    if (stage.step == Step::divide || stage.step == Step::shape) {
      handle(way, stage.step, here);
    } else {
      here = stage.step == Step::bulk ? proving.temperature : stage.temperature;
      const auto done = go_through(way, bake, stage, here);
      if (!done) return failure(done);
      reached = *done;
    }
    stops.push_back(stop_at(way, stage.step, begin, here, reached));
    if (!reached || way.t >= proving.horizon.in(hour)) break;
  }
  return stops;
}

}  // namespace barm::forecast

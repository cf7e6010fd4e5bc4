#include "testbakes/joint_model.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "base/require.h"
#include "forecast/dough_of.h"
#include "generated/constants.h"
#include "units/units.h"

namespace barm::testbakes {

using kinetics::Parameter;
using kinetics::Parameters;

namespace {

/// What all doughs share and readings may move; the rest of the culture's numbers cannot be told
/// from these by heights in a jar.
constexpr std::array shared{Parameter::wild_growth,
                            Parameter::wild_gas_of_growth,
                            Parameter::bacteria_growth,
                            Parameter::rise_limit,
                            Parameter::pore_leak,
                            Parameter::fading_by_acid,
                            Parameter::amylase};

// Of each day's levain: how awake it is and how much yeast it holds.
constexpr std::size_t of_a_day = 2;
constexpr double yeast_doubt = 0.4;  // ln; ours: half a decade of CFU counts is about 1.1 in all

// Paces of jars and of doughs, sd in ln.
const double of_a_jar = constants::scatter::jar.value.si();
const double of_a_dough = constants::scatter::dough.value.si();

constexpr double nudge = 0.005;  // of a standard deviation, for differences
constexpr double no_dose = 1e9;

// Ours: where the published half-speed dose would cost less than a tenth, the question is "what
// if".
constexpr double bites_as_published = 0.9;
constexpr double what_if_doubt = 0.7;
constexpr double unlikely = 0.1;
// Ours: that something in a drink for which the published figures have no word holds a dough back.
constexpr double unlisted = 0.25;

/// Growth and upkeep of every organism at a multiple of their speed: mu and the gas of upkeep are
/// the two rates that everything else follows.
void speed_up(Parameters<double>& p, double by) {
  for (const Parameter parameter : {Parameter::wild_growth,
                                    Parameter::wild_gas_of_upkeep,
                                    Parameter::bakers_growth,
                                    Parameter::bakers_gas_of_upkeep,
                                    Parameter::bacteria_growth,
                                    Parameter::bacteria_upkeep})
    p[parameter] *= by;
}

/// The numbers by which the kinetics know a cause.
std::vector<Parameter> halves(Cause cause) {
  switch (cause) {
    case Cause::alcohol:
      return {Parameter::wild_ethanol_half,
              Parameter::wild_ethanol_end,
              Parameter::bakers_ethanol_half,
              Parameter::bakers_ethanol_end,
              Parameter::bacteria_ethanol_half,
              Parameter::bacteria_ethanol_end};
    case Cause::sulphite:
      return {Parameter::wild_sulphite_half,
              Parameter::bakers_sulphite_half,
              Parameter::bacteria_sulphite_half};
    case Cause::sugar:
      return {
          Parameter::wild_sugar_half, Parameter::bakers_sugar_half, Parameter::bacteria_sugar_half};
    case Cause::sorbate:
      return {Parameter::wild_sorbate_half, Parameter::bakers_sorbate_half};
    case Cause::hops:
      return {Parameter::bacteria_hops_half};
    case Cause::acid:
    case Cause::other:
      break;
  }
  return {};
}

void switch_off(Parameters<double>& p, Cause cause) {
  for (const Parameter parameter : halves(cause)) p[parameter] = no_dose;
  if (cause == Cause::alcohol) p[Parameter::ethanol_scale] = no_dose;
}

/// What the kinetics know of acid hangs on the pH, not on a number: the acid itself is taken out.
kinetics::Dough without_acid(const Rival& rival) {
  const auto settled = forecast::without(rival.bake, rival.settled, kinetics::Factor::acid);
  const auto bowl = formula::in_the_bowl(rival.bake, settled);
  require(bowl.has_value(), "a bowl that was weighed can be weighed without its acid");
  return forecast::dough_of(*bowl, settled);
}

double doubt(Parameter parameter) {
  return kinetics::priors()[static_cast<std::size_t>(parameter)].doubt;
}

/// Straight line between two samples.
double between(const float* rise, std::size_t samples, double every, double hours) {
  const double at = hours / every;
  const auto before = std::min(static_cast<std::size_t>(at), samples - 2);
  const double part = at - static_cast<double>(before);
  return (1 - part) * static_cast<double>(rise[before]) +
         part * static_cast<double>(rise[before + 1]);
}

}  // namespace

std::vector<CausePrior> cause_priors(const std::vector<Rival>& rivals,
                                     const std::vector<Cause>& causes) {
  const auto answered = already_answered(rivals);
  std::vector<CausePrior> out;
  for (const Cause cause : causes) {
    CausePrior prior;
    prior.cause = cause;
    for (const Rival& rival : rivals)
      prior.largest_dose =
          std::max(prior.largest_dose, doses_of(rival)[static_cast<std::size_t>(cause)]);
    const Bite bite = published_bite(cause);
    prior.power = bite.power;
    prior.half_speed_dose = bite.half_speed_dose;
    prior.doubt = bite.doubt;
    const double left = speed_left(prior.largest_dose, bite.half_speed_dose, bite.power);
    if (bite.half_speed_dose <= 0 || left > bites_as_published) {
      prior.what_if = true;
      prior.half_speed_dose = std::max(prior.largest_dose, noticed(cause));
      prior.doubt = what_if_doubt;
    }
    for (const Answered& one : answered) {
      if (one.cause == cause && one.cannot_bite && cause != Cause::acid) prior.chance = unlikely;
    }
    if (cause == Cause::other) prior.chance = unlisted;
    out.push_back(prior);
  }
  return out;
}

JointModel::JointModel(const std::vector<Rival>& rivals,
                       std::vector<CausePrior> priors,
                       std::size_t days,
                       Temperature temperature,
                       int threads)
    : priors_(std::move(priors)), days_(days), temperature_(temperature), threads_(threads) {
  require(priors_.size() <= cause_count && days > 0, "causes and days");
  const bool of_acid = std::ranges::any_of(
      priors_, [](const CausePrior& prior) { return prior.cause == Cause::acid; });
  for (const Rival& rival : rivals) {
    doughs_.push_back(of_acid ? without_acid(rival)
                              : forecast::dough_of(rival.bowl, rival.settled));
    doses_.push_back(doses_of(rival));
  }
}

void JointModel::ask(std::vector<JarAsked> jars) {
  jars_ = std::move(jars);
  std::map<std::pair<std::size_t, std::size_t>, std::size_t> mixed;
  mixed_.clear();
  for (const JarAsked& jar : jars_)
    mixed_.push_back(mixed.try_emplace({jar.day, jar.dough}, mixed.size()).first->second);
  mixed_count_ = mixed.size();
}

std::size_t JointModel::index_of_cause(std::size_t c) const {
  return shared.size() + of_a_day * days_ + c;
}

std::size_t JointModel::index_of_jar(std::size_t j) const {
  return index_of_cause(priors_.size()) + j;
}

std::size_t JointModel::index_of_mixed(std::size_t j) const {
  return index_of_jar(jars_.size()) + mixed_[j];
}

std::size_t JointModel::unknowns() const { return index_of_jar(jars_.size()) + mixed_count_; }

double JointModel::ln_pace(std::size_t j, const std::vector<double>& z) const {
  return of_a_jar * z[index_of_jar(j)] + of_a_dough * z[index_of_mixed(j)];
}

double JointModel::half_speed_dose(std::size_t c, const std::vector<double>& z) const {
  return priors_[c].half_speed_dose * std::exp(priors_[c].doubt * z[index_of_cause(c)]);
}

forecast::Case JointModel::case_of(Hypothesis acting,
                                   const std::vector<double>& z,
                                   std::size_t dough,
                                   std::size_t day,
                                   double ln_pace) const {
  forecast::Case c;
  c.dough = doughs_[dough];
  c.temperature = temperature_;
  c.parameters = kinetics::book();
  Parameters<double>& p = c.parameters;
  for (std::size_t i = 0; i < shared.size(); ++i) p[shared[i]] *= std::exp(doubt(shared[i]) * z[i]);
  const std::size_t levain = shared.size() + of_a_day * day;
  p[Parameter::lag_scale] *= std::exp(doubt(Parameter::lag_scale) * z[levain]);
  c.dough.wild_yeast *= std::exp(yeast_doubt * z[levain + 1]);
  double left = std::exp(ln_pace);
  for (std::size_t k = 0; k < priors_.size(); ++k) {
    const Cause cause = priors_[k].cause;
    const bool acts = ((acting >> k) & 1U) != 0;
    const double half = half_speed_dose(k, z);
    if (acts && cause == Cause::alcohol) {
      for (const Parameter parameter : halves(cause))
        p[parameter] *= half / published_bite(cause).half_speed_dose;
      continue;
    }
    // The others act through their doses alone, so that what the kinetics know is not counted
    // twice.
    switch_off(p, cause);
    if (acts)
      left *= speed_left(doses_[dough][static_cast<std::size_t>(cause)], half, priors_[k].power);
  }
  speed_up(p, left);
  return c;
}

Result<std::vector<double>> JointModel::run(
    std::size_t count,
    const std::function<void(std::size_t, forecast::Case&)>& fill,
    const std::function<const JarAsked&(std::size_t)>& jar_of) const {
  double last = 1;
  for (const JarAsked& jar : jars_) {
    for (const double hours : jar.hours) last = std::max(last, hours);
  }
  constexpr double every = 0.25;
  forecast::ManyOptions many;
  many.proving.horizon = (std::ceil(last / every) + 1) * every * hour;
  many.proving.sample_every = every * hour;
  many.proving.target = 1e6;
  many.proving.accuracy.relative = 1e-6;
  many.threads = threads_;
  many.cancelled = cancelled;
  const auto runs = forecast::foresee_many(count, fill, many);
  if (!runs) return failure(runs);
  std::vector<double> out;
  for (std::size_t i = 0; i < count; ++i) {
    for (const double hours : jar_of(i).hours)
      out.push_back(between(&runs->rise[i * runs->samples], runs->samples, every, hours));
  }
  return out;
}

Result<std::vector<double>> JointModel::predict(Hypothesis acting,
                                                const std::vector<double>& z) const {
  return predict(acting, std::vector<std::vector<double>>{z});
}

Result<std::vector<double>> JointModel::predict(Hypothesis acting,
                                                const std::vector<std::vector<double>>& z) const {
  const auto fill = [&](std::size_t i, forecast::Case& c) {
    const std::size_t j = i % jars_.size();
    const auto& here = z[i / jars_.size()];
    c = case_of(acting, here, jars_[j].dough, jars_[j].day, ln_pace(j, here));
  };
  return run(z.size() * jars_.size(), fill, [&](std::size_t i) -> const JarAsked& {
    return jars_[i % jars_.size()];
  });
}

Result<JointModel::Slopes> JointModel::slopes(Hypothesis acting,
                                              const std::vector<double>& z) const {
  // Moves: none; each shared number; each number of a levain, on all days at once; each acting
  // cause; the pace of all jars at once.
  struct Move {
    std::function<std::size_t(const JarAsked&, std::size_t)> index;
  };

  std::vector<Move> moves;
  for (std::size_t i = 0; i < shared.size(); ++i)
    moves.push_back({[i](const JarAsked&, std::size_t) { return i; }});
  for (std::size_t i = 0; i < of_a_day; ++i)
    moves.push_back(
        {[i](const JarAsked& jar, std::size_t) { return shared.size() + of_a_day * jar.day + i; }});
  for (std::size_t k = 0; k < priors_.size(); ++k) {
    if (((acting >> k) & 1U) == 0) continue;
    moves.push_back({[this, k](const JarAsked&, std::size_t) { return index_of_cause(k); }});
  }
  moves.push_back({[this](const JarAsked&, std::size_t j) { return index_of_jar(j); }});

  const std::size_t n = jars_.size();
  const auto fill = [&](std::size_t i, forecast::Case& c) {
    const std::size_t j = i % n;
    std::vector<double> moved = z;
    if (i >= n) moved[moves[i / n - 1].index(jars_[j], j)] += nudge;
    c = case_of(acting, moved, jars_[j].dough, jars_[j].day, ln_pace(j, moved));
  };
  auto values = run(
      (moves.size() + 1) * n, fill, [&](std::size_t i) -> const JarAsked& { return jars_[i % n]; });
  if (!values) return failure(values);
  const std::size_t looks = values->size() / (moves.size() + 1);
  Slopes out;
  out.at.assign(values->begin(), values->begin() + static_cast<std::ptrdiff_t>(looks));
  out.by.assign(looks * unknowns(), 0);
  for (std::size_t m = 0; m < moves.size(); ++m) {
    std::size_t look = 0;
    for (std::size_t j = 0; j < n; ++j) {
      const std::size_t column = moves[m].index(jars_[j], j);
      for (std::size_t h = 0; h < jars_[j].hours.size(); ++h, ++look)
        out.by[look * unknowns() + column] =
            ((*values)[(m + 1) * looks + look] - out.at[look]) / nudge;
    }
  }
  // A dough's pace does what its jar's does, by its own measure.
  for (std::size_t j = 0, look = 0; j < n; ++j) {
    for (std::size_t h = 0; h < jars_[j].hours.size(); ++h, ++look) {
      double* row = &out.by[look * unknowns()];
      row[index_of_mixed(j)] = row[index_of_jar(j)] * of_a_dough / of_a_jar;
    }
  }
  return out;
}

Result<std::vector<double>> JointModel::hours_to(std::size_t dough,
                                                 std::size_t day,
                                                 double target,
                                                 Time horizon,
                                                 const std::vector<Hypothesis>& acting,
                                                 const std::vector<std::vector<double>>& z) const {
  forecast::ManyOptions many;
  many.proving.horizon = horizon;
  many.proving.target = target;
  many.proving.stop_at_target = true;
  many.threads = threads_;
  many.cancelled = cancelled;
  const auto runs = forecast::foresee_many(
      acting.size(),
      [&](std::size_t i, forecast::Case& c) { c = case_of(acting[i], z[i], dough, day, 0); },
      many);
  if (!runs) return failure(runs);
  std::vector<double> out;
  for (const auto& passed : runs->passed) out.push_back(std::min(passed.ready, horizon.in(hour)));
  return out;
}

}  // namespace barm::testbakes

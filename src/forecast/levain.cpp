#include "forecast/levain.h"

#include <algorithm>
#include <cmath>

#include "base/require.h"
#include "chemistry/acids.h"
#include "chemistry/ethanol_water.h"
#include "forecast/many.h"
#include "generated/constants.h"
#include "kinetics/system.h"

namespace barm::forecast {

using kinetics::StateOf;
using larder::Composition;
using larder::Property;

namespace {

constexpr Time at_most = 48.0 * hour;

struct LevainShares {
  double ripe, flour, water;  // of the fed levain, by mass
  double all_flour;           // flour in it, the ripe starter's included
  double added_water;         // water in it, flour's moisture not counted
};

LevainShares shares(const formula::Levain& levain, double starter_hydration) {
  const double all = levain.ripe + levain.fresh_flour + levain.water;
  LevainShares s{levain.ripe / all, levain.fresh_flour / all, levain.water / all, 0, 0};
  const double old_flour = levain.yeasted() ? 0 : s.ripe / (1 + starter_hydration);
  s.all_flour = s.flour + old_flour;
  s.added_water = s.water + s.ripe - old_flour;
  return s;
}

// Litres of water + ethanol at 20 C, from kilograms and grams.
double water_phase(double water, double ethanol) {
  const double all = water + ethanol / 1000;
  const auto density =
      chemistry::density(MassFraction(ethanol / 1000 / all), Temperature::from_celsius(20));
  require(density.has_value(), "the density of water and ethanol at 20 C");
  return all / density->in(kilogram / litre);
}

chemistry::Buffered part(const Composition& c, double mass, bool flour) {
  chemistry::Buffered buffered;
  buffered.mass = mass * kilogram;
  buffered.ph = c.ph();
  buffered.buffering = c[Property::buffering];
  buffered.flour = flour;
  buffered.acid[static_cast<std::size_t>(chemistry::Acid::lactic)] =
      mass * c[Property::lactic_acid] * kilogram / chemistry::molar_mass(chemistry::Acid::lactic);
  buffered.acid[static_cast<std::size_t>(chemistry::Acid::acetic)] =
      mass * c[Property::acetic_acid] * kilogram / chemistry::molar_mass(chemistry::Acid::acetic);
  return buffered;
}

double millimoles(const chemistry::Buffered& buffered, chemistry::Acid acid) {
  return buffered.acid[static_cast<std::size_t>(acid)].in(millimole);
}

// Hours without food count by the warmth at which they pass: two at 14 C as one at 24 C.
Time as_at_24(Time hours, Temperature at) {
  return hours * std::exp2((at.celsius() - 24) / constants::lag::hunger_doubling.value.si());
}

struct Kept {
  StateOf<double> state;
  Time hungry;  // hours without food, as at 24 C
};

// Without food cells die; those that live on sleep (lag_past_peak). Baker's yeast is taken to go
// hungry as wild yeasts do: nobody measured it.
void starve(Kept& kept) {
  const double left =
      std::exp(-constants::lag::hungry_death.value.in(1.0 / hour) * kept.hungry.in(hour));
  for (const kinetics::State cells :
       {kinetics::wild_yeast, kinetics::bakers_yeast, kinetics::bacteria})
    kept.state[cells] *= left;
}

// Runs all of them at once, each from where it is for so long.
Result<Many> leg(const std::vector<Case>& cases, Time lasts, const Together& together) {
  ManyOptions options;
  options.proving.horizon = lasts;
  options.states = true;
  options.precision = Precision::single;
  options.threads = together.threads;
  options.cancelled = together.cancelled;
  return foresee_many(cases, options);
}

// Feeding to the moment of use, or to the peak.
Result<std::vector<Kept>> keep_warm(const formula::Levain& levain,
                                    std::vector<Case>& cases,
                                    const Together& together) {
  const Time lasts = levain.since_feeding.value_or(at_most);
  auto warm = leg(cases, lasts, together);
  if (!warm) return failure(warm);
  std::vector<Time> past(cases.size());
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const double peak = warm->passed[i].peak;
    if (peak == Passed::never) continue;
    past[i] = lasts - peak * hour;
    cases[i].until = peak;
  }
  if (!levain.since_feeding) {
    warm = leg(cases, lasts, together);
    if (!warm) return failure(warm);
  }
  std::vector<Kept> kept;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const Time fasted = levain.since_feeding ? as_at_24(past[i], levain.temperature) : Time{};
    const double hunger = cases[i].parameters[kinetics::Parameter::hunger];
    kept.push_back({warm->at_end[i], hunger * fasted});
  }
  return kept;
}

// Then the cold.
std::optional<Error> keep_cold(const formula::Levain& levain,
                               std::vector<Case>& cases,
                               std::vector<Kept>& kept,
                               const Together& together) {
  if (levain.in_the_cold.si() <= 0) return std::nullopt;
  const Time fasted = as_at_24(levain.in_the_cold, levain.cold);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    cases[i].under_way = UnderWay{kept[i].state, 0, levain.temperature.celsius()};
    cases[i].temperature = levain.cold;
    cases[i].until = Passed::never;
    kept[i].hungry += cases[i].parameters[kinetics::Parameter::hunger] * fasted;
  }
  auto cold = leg(cases, levain.in_the_cold, together);
  if (!cold) return cold.error();
  for (std::size_t i = 0; i < cases.size(); ++i) kept[i].state = cold->at_end[i];
  return std::nullopt;
}

// log10 of cells in a gram; 0, as the larder says "none", where there are none.
double count_of(double grams_in_kilogram, double cell_mass) {
  return grams_in_kilogram > 0 ? std::log10(grams_in_kilogram / cell_mass / 1000) : 0;
}

// What its hours have made of one levain.
Composition composition_of(const formula::Levain& levain,
                           const LevainDraw& fed,
                           const Case& one,
                           const Kept& kept) {
  const StateOf<double>& y = kept.state;
  const kinetics::Dough& dough = one.dough;
  const auto& parameters = one.parameters;
  const auto terms = kinetics::terms(
      dough, parameters, levain.temperature.celsius(), levain.temperature.celsius());
  const kinetics::System<double> system(terms, kinetics::present(dough));

  Composition c = fed.flour;
  const LevainShares s = shares(levain, fed.starter[Property::hydration]);
  for (double& value : c.value) value *= s.all_flour;  // what flour brings, thinned by the water
  c[Property::water] = dough.water;
  c[Property::ethanol] = system.ethanol(y) * dough.water_phase / 1000;
  c[Property::strength] = 0;
  c[Property::lactic_acid] =
      system.lactate(y) * chemistry::molar_mass(chemistry::Acid::lactic).si() / 1000;
  c[Property::acetic_acid] =
      system.acetate(y) * chemistry::molar_mass(chemistry::Acid::acetic).si() / 1000;
  c[Property::glucose] = std::max(0.0, y[kinetics::hexose]) *
                         constants::molar_mass::hexose.value.in(kilogram / millimole);
  c[Property::fructose] = c[Property::sucrose] = 0;
  c[Property::maltose] = (y[kinetics::maltose] + y[kinetics::maltose_to_come]) *
                         constants::molar_mass::disaccharide.value.in(kilogram / millimole) / 2;
  const double sugars = c[Property::glucose] + c[Property::maltose];
  c[Property::starch] = std::max(0.0, c[Property::starch] - sugars);
  c[Property::carbon_dioxide] =
      (y[kinetics::gas_held] - kinetics::gas_in_bubbles(y[kinetics::gas_held], terms.gas)) *
      constants::molar_mass::carbon_dioxide.value.in(kilogram / millimole);
  c[Property::ph] = y[kinetics::acidity];
  c[Property::buffering] = dough.flour_buffering / 1000;
  c[Property::density] = 1050;
  c[Property::lactic_bacteria] =
      count_of(y[kinetics::bacteria], parameters[kinetics::Parameter::bacteria_cell_mass]);
  c[Property::wild_yeast] =
      count_of(y[kinetics::wild_yeast], parameters[kinetics::Parameter::wild_cell_mass]);
  c[Property::bakers_yeast] = y[kinetics::bakers_yeast] / 1000;
  c[Property::lag] = lag_past_peak(kept.hungry);
  c[Property::gluten_strength] = y[kinetics::strength];
  c[Property::hydration] = levain.hydration();
  c[Property::rise_limit] = fed.flour[Property::rise_limit];
  c[Property::pentosan_share] = fed.flour[Property::pentosan_share];
  return c;
}

bool alive(const formula::Levain& levain, const Composition& starter) {
  if (levain.yeasted()) return starter[Property::bakers_yeast] > 0;
  return starter[Property::wild_yeast] > 0 && starter[Property::lactic_bacteria] > 0;
}

}  // namespace

Result<kinetics::Dough> freshly_fed(const formula::Levain& levain,
                                    const Composition& starter,
                                    const Composition& flour) {
  if (!alive(levain, starter)) {
    return failure(ErrorCode::bad_input,
                   levain.place,
                   "'" + levain.starter.name +
                       "' is not a living levain; name a ripe starter, such as 'stiff ripe "
                       "levain', or for a poolish or biga 'fresh yeast'");
  }
  const LevainShares s = shares(levain, starter[Property::hydration]);
  const chemistry::Buffered parts[] = {part(starter, s.ripe, !levain.yeasted()),
                                       part(flour, s.flour, true)};
  const auto ph = chemistry::mixed_ph(parts, Molality::from_si(0.02));
  if (!ph) return failure(ph);

  kinetics::Dough dough;
  dough.water = s.ripe * starter[Property::water] + s.flour * flour[Property::water] + s.water;
  dough.ethanol = 1000 * s.ripe * starter[Property::ethanol];
  dough.water_phase = water_phase(dough.water, dough.ethanol);
  dough.flour = s.flour;
  dough.lactate = millimoles(parts[0], chemistry::Acid::lactic);
  dough.acetate = millimoles(parts[0], chemistry::Acid::acetic);
  dough.flour_buffering =
      1000 * (s.ripe * starter[Property::buffering] + s.flour * flour[Property::buffering]);
  dough.ph = ph->value();
  if (levain.yeasted()) {
    dough.bakers_yeast = s.ripe * 1000 * starter[Property::bakers_yeast];
  } else {
    dough.wild_yeast = s.ripe * 1000 * std::pow(10.0, starter[Property::wild_yeast]);
    dough.bacteria = s.ripe * 1000 * std::pow(10.0, starter[Property::lactic_bacteria]);
    dough.lag = starter[Property::lag];
    const double old_flour = 1 - s.flour / s.all_flour;
    dough.strength = 1 - old_flour * (1 - starter[Property::gluten_strength]) *
                             (1 - starter[Property::pentosan_share]);
  }
  const double rise = flour[Property::rise_limit] - 1;
  dough.pentosan_rise = rise * flour[Property::pentosan_share];
  dough.rise_limit = 1 + rise - dough.pentosan_rise;
  dough.hydration = s.added_water / s.all_flour;
  return dough;
}

double lag_past_peak(Time past) {
  namespace lag = constants::lag;
  const double awake = std::exp(-std::max(0.0, past.in(lag::sleep.value)));
  return lag::asleep.value.si() - awake * (lag::asleep.value.si() - lag::at_peak.value.si());
}

Result<std::optional<Time>> past_peak(const formula::Levain& levain,
                                      const kinetics::Parameters<double>& parameters) {
  if (!levain.since_feeding || levain.in_the_cold > Time{}) return std::optional<Time>();
  const auto typical = [] { return 0.0; };
  const auto starter = larder::drawn(levain.starter, typical);
  if (!starter) return failure(starter);
  const auto flour = larder::drawn(levain.flour, typical);
  if (!flour) return failure(flour);
  const auto course = levain_course(levain, *starter, *flour, parameters, at_most);
  if (!course) return failure(course);
  if (!course->peak) return std::optional<Time>();
  return std::optional<Time>(*levain.since_feeding - *course->peak);
}

Result<Course> levain_course(const formula::Levain& levain,
                             const Composition& starter,
                             const Composition& flour,
                             const kinetics::Parameters<double>& parameters,
                             Time horizon) {
  const auto dough = freshly_fed(levain, starter, flour);
  if (!dough) return failure(dough);
  Proving proving;
  proving.temperature = levain.temperature;
  proving.horizon = horizon;
  proving.accuracy.relative = 1e-5;
  return run(*dough, parameters, proving);
}

Result<std::vector<Composition>> fermented(const formula::Levain& levain,
                                           const std::vector<LevainDraw>& fed,
                                           const Together& together) {
  std::vector<Case> cases;
  for (const LevainDraw& one : fed) {
    auto dough = freshly_fed(levain, one.starter, one.flour);
    if (!dough) return failure(dough);
    cases.push_back({*dough, one.parameters, levain.temperature});
    cases.back().under_way = UnderWay{
        kinetics::at_mixing(cases.back().dough, one.parameters), 0, levain.temperature.celsius()};
  }
  auto kept = keep_warm(levain, cases, together);
  if (!kept) return failure(kept);
  if (const auto error = keep_cold(levain, cases, *kept, together)) return failure(*error);
  std::vector<Composition> out;
  for (std::size_t i = 0; i < fed.size(); ++i) {
    starve((*kept)[i]);
    out.push_back(composition_of(levain, fed[i], cases[i], (*kept)[i]));
  }
  return out;
}

}  // namespace barm::forecast

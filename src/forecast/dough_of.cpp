#include "forecast/dough_of.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "generated/constants.h"
#include "larder/larder.h"
#include "units/units.h"

namespace barm::forecast {

using chemistry::Acid;
using kinetics::Factor;
using larder::Property;

namespace {

constexpr double hexose_gram_per_mole = constants::molar_mass::hexose.value.in(gram / mole);
constexpr double disaccharide_gram_per_mole =
    constants::molar_mass::disaccharide.value.in(gram / mole);
constexpr double iso_alpha_gram_per_mole =
    constants::molar_mass::iso_alpha_acid.value.in(gram / mole);
constexpr double carbon_dioxide_gram_per_mole =
    constants::molar_mass::carbon_dioxide.value.in(gram / mole);

// Cells of one kind in all portions, by their count per gram.
double cells(const formula::Bowl& bowl,
             std::span<const larder::Composition> settled,
             Property count) {
  double sum = 0;
  for (std::size_t i = 0; i < settled.size(); ++i) {
    if (settled[i][count] > 0)
      sum += bowl.lines[i].actual.in(gram)*std::pow(10.0, settled[i][count]);
  }
  return sum;
}

bool from_a_levain(const larder::Composition& c) { return c[Property::hydration] > 0; }

// The lag of those who rise the dough: by the share of cells each levain brings; of a poolish or
// biga, where no wild yeast comes with any, its own.
double lag(const formula::Bowl& bowl, std::span<const larder::Composition> settled) {
  double weighted = 0;
  double all = 0;
  double of_bakers = constants::lag::at_peak.value.si();
  for (std::size_t i = 0; i < settled.size(); ++i) {
    const larder::Composition& c = settled[i];
    if (c[Property::bakers_yeast] > 0 && from_a_levain(c)) of_bakers = c[Property::lag];
    if (c[Property::wild_yeast] <= 0) continue;
    const double brought = bowl.lines[i].actual.in(gram)*std::pow(10.0, c[Property::wild_yeast]);
    weighted += brought * c[Property::lag];
    all += brought;
  }
  return all > 0 ? weighted / all : of_bakers;
}

// Baker's yeast by weight, and how much of it comes out of its packet.
void add_bakers_yeast(const formula::Bowl& bowl,
                      std::span<const larder::Composition> settled,
                      kinetics::Dough& dough) {
  double woken = 0;
  for (std::size_t i = 0; i < settled.size(); ++i) {
    const double brought =
        bowl.lines[i].actual.in(gram)*settled[i][Property::bakers_yeast] / bowl.dough.in(kilogram);
    dough.bakers_yeast += brought;
    if (from_a_levain(settled[i])) woken += brought;
  }
  if (woken > 0) dough.packet = 1 - woken / dough.bakers_yeast;
}

// What ripe levains have left of the gluten, by the flour that has any.
double strength(const formula::Bowl& bowl, std::span<const larder::Composition> settled) {
  double lost = 0;
  double all = 0;
  for (std::size_t i = 0; i < settled.size(); ++i) {
    const double hydration = settled[i][Property::hydration];
    if (hydration <= 0 && !bowl.lines[i].flour) continue;
    const double flour = bowl.lines[i].actual / (1 + hydration) / bowl.flour *
                         (1 - settled[i][Property::pentosan_share]);
    all += flour;
    if (hydration > 0) lost += flour * (1 - settled[i][Property::gluten_strength]);
  }
  return all > 0 ? std::max(0.05, 1 - lost / all) : 1;
}

// What buffers and acids have given off at a pH [mmol], but for a constant (chemistry.md 7).
double charge(const kinetics::Dough& dough, double ph) {
  namespace flour = constants::flour_buffer;
  const double bend = flour::bend.value.value();
  const auto ionic = Molality::from_si(
      dough.salt / constants::molar_mass::salt.value.in(gram / mole) / dough.water);
  const auto given = [&](Acid acid, double millimoles) {
    return millimoles > 0 ? millimoles * chemistry::dissociated(acid, Ph(ph), ionic) : 0;
  };
  double sum =
      dough.buffering * ph +
      dough.flour_buffering * (ph < bend ? bend + flour::steeper.value.si() * (ph - bend) : ph);
  sum += given(Acid::lactic, dough.lactate) + given(Acid::acetic, dough.acetate);
  for (std::size_t a = 0; a < chemistry::acid_count; ++a)
    sum += given(static_cast<Acid>(a), dough.acid[a]);
  return sum;
}

bool plain_part(const formula::Portion& portion) {
  return portion.ingredient.group == larder::Group::flour ||
         portion.ingredient.group == larder::Group::starter || portion.levain;
}

}  // namespace

kinetics::Dough dough_of(const formula::Bowl& bowl, std::span<const larder::Composition> settled) {
  const double per_kg = 1 / bowl.dough.in(kilogram);
  kinetics::Dough dough;
  dough.water = bowl.water.in(kilogram)*per_kg;
  dough.water_phase = bowl.water_phase.in(litre)*per_kg;
  dough.ethanol = bowl.ethanol.in(gram)*per_kg;
  dough.salt = bowl.salt.in(gram)*per_kg;
  dough.flour = (bowl.flour - bowl.levain_flour).in(kilogram)*per_kg;
  const auto as_hexose = [&](Mass hexose, Mass sucrose) {  // [mmol/kg]
    return 1000 * per_kg *
           (hexose.in(gram) / hexose_gram_per_mole +
            2 * sucrose.in(gram) / disaccharide_gram_per_mole);
  };
  dough.slow_hexose = as_hexose(bowl.slow_hexose, bowl.slow_sucrose);
  dough.added_hexose = as_hexose(bowl.hexose - bowl.slow_hexose, bowl.sucrose - bowl.slow_sucrose);
  dough.added_maltose = 1000 * per_kg * 2 * bowl.maltose.in(gram) / disaccharide_gram_per_mole;
  for (std::size_t a = 0; a < chemistry::acid_count; ++a) {
    const double millimoles = bowl.acid[a].in(millimole)*per_kg;
    switch (static_cast<Acid>(a)) {
      case Acid::lactic:
        dough.lactate = millimoles;
        break;
      case Acid::acetic:
        dough.acetate = millimoles;
        break;
      case Acid::carbonic:
        break;
      default:
        dough.acid[a] = millimoles;
    }
  }
  dough.buffering = 1000 * (bowl.buffering - bowl.flour_buffering) * per_kg;
  dough.flour_buffering = 1000 * bowl.flour_buffering * per_kg;
  dough.ph = bowl.ph_at_first.value();
  dough.free_sulphite = bowl.free_sulphite.in(milligram)*per_kg;
  dough.sorbate = bowl.sorbate.in(milligram)*per_kg;
  dough.iso_alpha_acids = 1e6 * bowl.iso_alpha_acids.in(gram) / iso_alpha_gram_per_mole * per_kg;
  dough.carbon_dioxide =
      1000 * bowl.carbon_dioxide.in(gram) / carbon_dioxide_gram_per_mole * per_kg;
  dough.wild_yeast = cells(bowl, settled, Property::wild_yeast) * per_kg;
  dough.bacteria = cells(bowl, settled, Property::lactic_bacteria) * per_kg;
  add_bakers_yeast(bowl, settled, dough);
  dough.lag = lag(bowl, settled);
  dough.strength = strength(bowl, settled);
  dough.pentosan_rise = bowl.pentosan_rise;
  dough.rise_limit = bowl.rise_limit - bowl.pentosan_rise;
  dough.protease = bowl.protease;
  dough.slow_acid = charge(dough, bowl.ph_at_first.value()) - charge(dough, bowl.ph.value());
  dough.hydration = bowl.real_hydration();
  return dough;
}

namespace {

constexpr Property sugars[] = {
    Property::glucose, Property::fructose, Property::sucrose, Property::maltose};
constexpr Property acids[] = {Property::lactic_acid,
                              Property::acetic_acid,
                              Property::tartaric_acid,
                              Property::malic_acid,
                              Property::citric_acid,
                              Property::succinic_acid,
                              Property::gluconic_acid,
                              Property::buffering};

void clear(larder::Composition& c, std::span<const Property> properties) {
  for (const Property property : properties) c[property] = 0;
}

// How long a levain has been hungry, as at 24 C, by its lag (docs/model/kinetics.md 25 the other
// way round).
double hungry_hours(double lag) {
  namespace kept = constants::lag;
  const double asleep = kept::asleep.value.si();
  const double awake = std::clamp((asleep - lag) / (asleep - kept::at_peak.value.si()), 1e-3, 1.0);
  return -kept::sleep.value.in(hour)*std::log(awake);
}

// [h] So long a levain may wait before its hunger is named; what it costs is told from there on, so
// that it begins at nothing.
constexpr double patient = 6;

double lag_after(double hungry) {
  namespace kept = constants::lag;
  const double asleep = kept::asleep.value.si();
  return asleep -
         std::exp(-hungry / kept::sleep.value.in(hour)) * (asleep - kept::at_peak.value.si());
}

// As the levain was before it went hungry.
void feed(larder::Composition& c) {
  const double beyond = hungry_hours(c[Property::lag]) - patient;
  if (!(beyond > 0)) return;
  const double died = constants::lag::hungry_death.value.in(1.0 / hour) * beyond;
  for (const Property count : {Property::wild_yeast, Property::lactic_bacteria})
    if (c[count] > 0) c[count] += died / std::numbers::ln10;
  if (from_a_levain(c)) c[Property::bakers_yeast] *= std::exp(died);
  c[Property::lag] = lag_after(patient);
}

double white_limit() {
  static const double limit =
      larder::typical(*larder::find("white bread flour")).value()[Property::rise_limit];
  return limit;
}

void strengthen(larder::Composition& c) {
  c[Property::protease] = c[Property::pentosan_share] = 0;
  if (c[Property::rise_limit] > 0)
    c[Property::rise_limit] = std::max(c[Property::rise_limit], white_limit());
  if (c[Property::hydration] > 0) c[Property::gluten_strength] = 1;
}

// Out of what is neither flour nor starter.
void take_out(larder::Composition& c, Factor factor) {
  switch (factor) {
    case Factor::alcohol:
      c[Property::water] += c[Property::ethanol];
      c[Property::ethanol] = c[Property::strength] = 0;
      return;
    case Factor::sugar:
      return clear(c, sugars);
    case Factor::acid:
      return clear(c, acids);
    case Factor::sulphite:
      c[Property::free_sulphite] = 0;
      return;
    case Factor::sorbate:
      c[Property::sorbate] = 0;
      return;
    case Factor::hops:
      c[Property::iso_alpha_acids] = 0;
      return;
    default:
      return;
  }
}

}  // namespace

std::vector<larder::Composition> without(const formula::Bake& bake,
                                         std::vector<larder::Composition> settled,
                                         Factor factor) {
  for (std::size_t i = 0; i < settled.size(); ++i) {
    larder::Composition& c = settled[i];
    if (factor == Factor::salt) c[Property::salt] = 0;
    if (factor == Factor::hunger) feed(c);
    if (factor == Factor::weak_flour) strengthen(c);
    if (!plain_part(bake.bowl[i])) take_out(c, factor);
  }
  return settled;
}

namespace {

double other_acid(const formula::Bowl& bowl) {  // [mmol/kg flour]
  double acid = 0;
  for (std::size_t a = 0; a < chemistry::acid_count; ++a) {
    const auto kind = static_cast<Acid>(a);
    if (kind != Acid::lactic && kind != Acid::carbonic) acid += bowl.acid[a].in(millimole);
  }
  return acid / bowl.flour.in(kilogram);
}

bool hungry(std::span<const larder::Composition> settled) {
  return std::any_of(settled.begin(), settled.end(), [](const larder::Composition& c) {
    const bool levain =
        c[Property::wild_yeast] > 0 || (c[Property::bakers_yeast] > 0 && from_a_levain(c));
    // Doughs differ in hunger: where the middle one is not yet beyond it, some are.
    return levain && hungry_hours(c[Property::lag]) > 0.6 * patient;
  });
}

}  // namespace

bool holds(const formula::Bowl& bowl,
           std::span<const larder::Composition> settled,
           Temperature bulk,
           Factor factor) {
  switch (factor) {
    case Factor::alcohol:
      return bowl.ethanol_of_dough().value() > 0.0005;
    case Factor::salt:
      return bowl.salt.si() > 0;
    case Factor::sugar:
      return (bowl.hexose + bowl.sucrose + bowl.maltose).si() > 0.002 * bowl.flour.si();
    case Factor::acid:
      return other_acid(bowl) > 2;
    case Factor::sulphite:
      return bowl.free_sulphite.si() > 0;
    case Factor::sorbate:
      return bowl.sorbate.si() > 0;
    case Factor::hops:
      return bowl.iso_alpha_acids.si() > 0;
    case Factor::hunger:
      return hungry(settled);
    case Factor::weak_flour:
      return bowl.rise_limit < 0.75 * white_limit() || bowl.protease > 0.01;
    case Factor::cold:
      return bulk < constants::room::cold.value;
    case Factor::warmth:
      return bulk > constants::room::warm.value;
  }
  return false;
}

}  // namespace barm::forecast

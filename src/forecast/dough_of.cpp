#include "forecast/dough_of.h"

#include <cmath>

#include "generated/constants.h"
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

// The lag of those who rise the dough: by the share of cells each portion brings.
double lag(const formula::Bowl& bowl, std::span<const larder::Composition> settled) {
  double weighted = 0;
  double all = 0;
  for (std::size_t i = 0; i < settled.size(); ++i) {
    if (settled[i][Property::wild_yeast] <= 0) continue;
    const double brought =
        bowl.lines[i].actual.in(gram)*std::pow(10.0, settled[i][Property::wild_yeast]);
    weighted += brought * settled[i][Property::lag];
    all += brought;
  }
  return all > 0 ? weighted / all : constants::lag::at_peak.value.si();
}

double strength(const formula::Bowl& bowl, std::span<const larder::Composition> settled) {
  double lost = 0;
  for (std::size_t i = 0; i < settled.size(); ++i) {
    const double hydration = settled[i][Property::hydration];
    if (hydration <= 0) continue;
    const Mass flour = bowl.lines[i].actual / (1 + hydration);
    lost += flour / bowl.flour * (1 - settled[i][Property::gluten_strength]);
  }
  return std::max(0.05, 1 - lost);
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
  dough.added_hexose = 1000 * per_kg *
                       (bowl.hexose.in(gram) / hexose_gram_per_mole +
                        2 * bowl.sucrose.in(gram) / disaccharide_gram_per_mole);
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
  dough.ph = bowl.ph.value();
  dough.free_sulphite = bowl.free_sulphite.in(milligram)*per_kg;
  dough.sorbate = bowl.sorbate.in(milligram)*per_kg;
  dough.iso_alpha_acids = 1e6 * bowl.iso_alpha_acids.in(gram) / iso_alpha_gram_per_mole * per_kg;
  dough.carbon_dioxide =
      1000 * bowl.carbon_dioxide.in(gram) / carbon_dioxide_gram_per_mole * per_kg;
  dough.wild_yeast = cells(bowl, settled, Property::wild_yeast) * per_kg;
  dough.bacteria = cells(bowl, settled, Property::lactic_bacteria) * per_kg;
  for (std::size_t i = 0; i < settled.size(); ++i) {
    dough.bakers_yeast += bowl.lines[i].actual.in(gram)*settled[i][Property::bakers_yeast] * per_kg;
  }
  dough.lag = lag(bowl, settled);
  dough.strength = strength(bowl, settled);
  dough.rise_limit = bowl.rise_limit;
  dough.hydration = bowl.real_hydration();
  return dough;
}

std::vector<larder::Composition> without(const formula::Bake& bake,
                                         std::vector<larder::Composition> settled,
                                         Factor factor) {
  for (std::size_t i = 0; i < settled.size(); ++i) {
    larder::Composition& c = settled[i];
    const auto clear = [&](std::initializer_list<Property> properties) {
      for (const Property property : properties) c[property] = 0;
    };
    if (factor == Factor::salt) {
      clear({Property::salt});
      continue;
    }
    if (plain_part(bake.bowl[i])) continue;
    switch (factor) {
      case Factor::alcohol:
        c[Property::water] += c[Property::ethanol];
        clear({Property::ethanol, Property::strength});
        break;
      case Factor::sugar:
        clear({Property::glucose, Property::fructose, Property::sucrose, Property::maltose});
        break;
      case Factor::acid:
        clear({Property::lactic_acid,
               Property::acetic_acid,
               Property::tartaric_acid,
               Property::malic_acid,
               Property::citric_acid,
               Property::succinic_acid,
               Property::gluconic_acid,
               Property::buffering});
        break;
      case Factor::sulphite:
        clear({Property::free_sulphite});
        break;
      case Factor::sorbate:
        clear({Property::sorbate});
        break;
      case Factor::hops:
        clear({Property::iso_alpha_acids});
        break;
      case Factor::salt:
        break;
    }
  }
  return settled;
}

bool holds(const formula::Bowl& bowl, Factor factor) {
  double acid = 0;
  for (std::size_t a = 0; a < chemistry::acid_count; ++a) {
    const auto kind = static_cast<Acid>(a);
    if (kind != Acid::lactic && kind != Acid::carbonic) acid += bowl.acid[a].in(millimole);
  }
  switch (factor) {
    case Factor::alcohol:
      return bowl.ethanol_of_dough().value() > 0.0005;
    case Factor::salt:
      return bowl.salt.si() > 0;
    case Factor::sugar:
      return (bowl.hexose + bowl.sucrose + bowl.maltose).si() > 0.002 * bowl.flour.si();
    case Factor::acid:
      return acid / bowl.flour.in(kilogram) > 2;
    case Factor::sulphite:
      return bowl.free_sulphite.si() > 0;
    case Factor::sorbate:
      return bowl.sorbate.si() > 0;
    case Factor::hops:
      return bowl.iso_alpha_acids.si() > 0;
  }
  return false;
}

}  // namespace barm::forecast

#include "formula/internal/contents.h"

#include <algorithm>

#include "chemistry/ethanol_water.h"
#include "generated/constants.h"
#include "larder/larder.h"
#include "units/units.h"

namespace barm::formula::internal {

using larder::Composition;
using larder::Property;

namespace {

constexpr std::array<Property, chemistry::acid_count - 1> acid_properties = {
    Property::lactic_acid,
    Property::acetic_acid,
    Property::tartaric_acid,
    Property::malic_acid,
    Property::citric_acid,
    Property::succinic_acid,
    Property::gluconic_acid};

void add_flour(const Portion& portion, const Composition& c, Contents& parts) {
  const double flour = flour_share(portion, c);
  parts[Part::flour] = flour;
  if (is_starter(portion)) parts[Part::levain_flour] = flour;
  parts[Part::flour_buffering] = c[Property::buffering];
  parts[Part::ash] = c[Property::ash];
  if (c[Property::rise_limit] > 0) {
    parts[Part::rising_flour] = flour;
    parts[Part::rise] = flour * c[Property::rise_limit];
    parts[Part::pentosan_rise] =
        flour * (c[Property::rise_limit] - 1) * c[Property::pentosan_share];
  }
}

void add_liquid(const Composition& c, Contents& parts) {
  parts[Part::liquid] = 1;
  parts[Part::poured_water] = c[Property::water];
  parts[Part::poured_ethanol] = c[Property::ethanol];
  parts[Part::poured_solids] = std::max(0.0, 1 - c[Property::water] - c[Property::ethanol]);
  parts[Part::poured_fat] = std::min(c[Property::fat], parts[Part::poured_solids]);
}

void add_acids(const Composition& c, Contents& parts) {
  for (std::size_t k = 0; k < acid_properties.size(); ++k) {
    const double mass = c[acid_properties[k]];
    if (mass > 0) {
      parts.acid(k) = mass / chemistry::molar_mass(static_cast<chemistry::Acid>(k)).si();
    }
  }
  const double gas = c[Property::carbon_dioxide];
  parts.acid(chemistry::acid_count - 1) = gas / constants::molar_mass::carbon_dioxide.value.si();
}

/// Water but flour's own moisture: none in flour; in a starter what its hydration says.
double added_water(const Portion& portion, const Composition& c) {
  if (is_starter(portion)) return c[Property::hydration] * flour_share(portion, c);
  return portion.ingredient.is_flour() ? 0 : c[Property::water];
}

}  // namespace

bool is_starter(const Portion& portion) {
  return portion.levain || portion.ingredient.group == larder::Group::starter;
}

bool is_whole_fruit(const Portion& portion) {
  return portion.ingredient.group == larder::Group::fruit;
}

double flour_share(const Portion& portion, const Composition& composition) {
  if (is_starter(portion)) return 1 / (1 + composition[Property::hydration]);
  return portion.ingredient.is_flour() ? 1 : 0;
}

Property property_of(chemistry::Acid acid) {
  return acid_properties.at(static_cast<std::size_t>(acid));
}

Contents per_kilogram(const Portion& portion, const Composition& c) {
  Contents parts;
  const bool starter = is_starter(portion);
  parts[Part::mass] = 1;
  parts[Part::added_water] = added_water(portion, c);
  parts[Part::water] = c[Property::water];
  parts[Part::ethanol] = c[Property::ethanol];
  parts[Part::salt] = c[Property::salt];
  parts[Part::glycerol] = c[Property::glycerol];
  parts[Part::fat] = c[Property::fat];
  parts[Part::free_sulphite] = c[Property::free_sulphite];
  parts[Part::total_sulphite] = c[Property::total_sulphite];
  parts[Part::sorbate] = c[Property::sorbate];
  parts[Part::iso_alpha_acids] = c[Property::iso_alpha_acids];
  parts[Part::carbon_dioxide] = c[Property::carbon_dioxide];
  parts[Part::buffering] = c[Property::buffering];
  parts[Part::protease] = c[Property::protease];
  add_acids(c, parts);
  if (starter || portion.ingredient.is_flour()) add_flour(portion, c, parts);
  if (starter) parts[Part::liquid] = parts[Part::added_water];
  if (!starter && portion.ingredient.is_liquid()) add_liquid(c, parts);
  if (portion.ingredient.is_flour()) return parts;  // its sugars are the flour's own
  parts[Part::hexose] = c[Property::glucose] + c[Property::fructose];
  parts[Part::sucrose] = c[Property::sucrose];
  parts[Part::maltose] = c[Property::maltose];
  parts[Part::lactose] = c[Property::lactose];
  if (is_whole_fruit(portion)) {
    parts[Part::slow_hexose] = parts[Part::hexose];
    parts[Part::slow_sucrose] = parts[Part::sucrose];
  }
  return parts;
}

Portion no_water() {
  Portion water;
  water.ingredient = *larder::find("water");
  water.measure = Measure::mass;
  return water;
}

double mixture_volume(double water, double ethanol) {
  const double both = water + ethanol;
  if (!(both > 0)) return 0;
  const auto rho = chemistry::density(MassFraction(ethanol / both), Temperature::from_celsius(20));
  return both / rho.value().si();
}

double poured_volume(double water, double ethanol, double solids, double fat) {
  return mixture_volume(water, ethanol) +
         constants::larder::solute_volume.value.si() * (solids - fat) +
         constants::larder::fat_volume.value.si() * fat;
}

}  // namespace barm::formula::internal

#include "forecast/bodies.h"

#include <algorithm>
#include <cmath>

#include "generated/constants.h"
#include "larder/property.h"

namespace barm::forecast {

using formula::Vessel;
using larder::Property;

namespace {

// Share of the volume that is gas: what was mixed in, and what it rose by.
double gas_at(double rise) {
  const double solid = 1 - constants::gas::void_at_start.value.si();
  return std::clamp(1 - solid / rise, 0.0, 0.9);
}

template <class Constant>
double drawn(const Constant& constant, double luck) {
  return constant.value.si() * std::exp(constant.doubt * luck);
}

double transfer_of(const formula::Surroundings& surroundings, Vessel vessel, double luck) {
  namespace transfer = constants::transfer;
  if (surroundings.fan) return drawn(transfer::fan, luck);
  switch (vessel) {
    case Vessel::tub:
    case Vessel::bowl:
      return drawn(transfer::bowl, luck);
    case Vessel::basket:
      return drawn(transfer::basket, luck);
    case Vessel::tray:
      return drawn(transfer::bare, luck);
  }
  return drawn(transfer::bowl, luck);
}

}  // namespace

heat::Makeup makeup_of(const Draw& draw) {
  heat::Makeup makeup;
  const double dough = draw.bowl.dough.si();
  double known = 0;
  for (std::size_t i = 0; i < draw.settled.size(); ++i) {
    const larder::Composition& c = draw.settled[i];
    const double share = draw.bowl.lines[i].actual.si() / dough;
    makeup.water += share * c[Property::water];
    makeup.ethanol += share * c[Property::ethanol];
    makeup.protein += share * c[Property::protein];
    makeup.fat += share * c[Property::fat];
    makeup.fibre += share * c[Property::fibre];
    makeup.ash += share * (c[Property::ash] + c[Property::salt]);
  }
  known = makeup.water + makeup.ethanol + makeup.protein + makeup.fat + makeup.fibre + makeup.ash;
  makeup.carbohydrate = std::max(0.0, 1 - known);
  return makeup;
}

heat::Body body_in(const formula::Surroundings& surroundings,
                   Vessel vessel,
                   Mass mass,
                   const heat::Makeup& makeup,
                   Temperature about,
                   double rise,
                   double luck) {
  const heat::Material material = heat::material(makeup, about, gas_at(rise));
  const Volume volume = mass / material.density;
  const double transfer = transfer_of(surroundings, vessel, luck);
  if (vessel == Vessel::basket || vessel == Vessel::tray) {
    return {material, heat::loaf(volume, constants::shape::loaf_height.value.si()), transfer};
  }
  const Length width =
      surroundings.width.value_or(heat::width_of(volume, constants::shape::tub_height.value.si()));
  return {material, heat::standing_cylinder(volume, width), transfer};
}

heat::Body body_in(const formula::Jar& jar,
                   const heat::Makeup& makeup,
                   Temperature about,
                   double rise,
                   double luck) {
  const heat::Material material = heat::material(makeup, about, gas_at(rise));
  return {material,
          heat::standing_cylinder(jar.dough / material.density, jar.diameter),
          drawn(constants::transfer::jar, luck)};
}

Volume volume_at_mixing(Mass mass) {
  const double solid = 1 - constants::gas::void_at_start.value.si();
  return mass / constants::gas::gas_free_density.value / solid;
}

double surface_of(Length height) { return constants::shape::tub_depth.value / height; }

heat::Place place_of(const formula::Stage& stage, Temperature settles) {
  heat::Place place;
  place.settles = settles;
  place.opens = stage.surroundings.opens_at.value_or(settles);
  place.halves = stage.surroundings.recovers;
  return place;
}

}  // namespace barm::forecast

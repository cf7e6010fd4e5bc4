#include "heat/material.h"

#include <array>

#include "base/require.h"
#include "generated/constants.h"
#include "generated/tables.h"
#include "units/units.h"

namespace barm::heat {

namespace {

// A component at a temperature, in SI.
struct Part {
  double share, conductivity, density, capacity;
};

double polynomial(double c0, double c1, double c2, double t) { return c0 + t * (c1 + t * c2); }

Part part_of(std::size_t row, std::string_view name, double share, double t) {
  const tables::choi_okos_row& r = tables::choi_okos[row];
  require(r.component.substr(0, name.size()) == name, "rows of choi_okos.csv in order");
  return {share,
          polynomial(r.k_c0, r.k_c1, r.k_c2, t),
          polynomial(r.rho_c0, r.rho_c1, r.rho_c2, t),
          1000 * polynomial(r.cp_c0, r.cp_c1, r.cp_c2, t)};
}

// Maxwell and Eucken, the dough continuous.
double with_bubbles(double k, double gas) {
  constexpr double k_g = constants::dough_heat::gas_conductivity.value.si();
  return k * (2 * k + k_g - 2 * gas * (k - k_g)) / (2 * k + k_g + gas * (k - k_g));
}

}  // namespace

Material material(const Makeup& makeup, Temperature temperature, double gas) {
  namespace own = constants::dough_heat;
  const double t = temperature.celsius();
  const std::array parts = {part_of(0, "water", makeup.water, t),
                            part_of(1, "protein", makeup.protein, t),
                            part_of(2, "fat", makeup.fat, t),
                            part_of(3, "carbohydrate", makeup.carbohydrate, t),
                            part_of(4, "fibre", makeup.fibre, t),
                            part_of(5, "ash", makeup.ash, t),
                            Part{makeup.ethanol,
                                 own::ethanol_conductivity.value.si(),
                                 own::ethanol_density.value.si(),
                                 own::ethanol_capacity.value.si()}};
  double mass = 0;
  double volume = 0;
  double k = 0;
  double cp = 0;
  for (const Part& part : parts) {
    mass += part.share;
    volume += part.share / part.density;
    cp += part.share * part.capacity;
    k += part.share / part.density * part.conductivity;
  }
  require(mass > 0 && gas >= 0 && gas < 1,
          "a dough has a makeup, and a volume that is not all gas");
  return {Conductivity::from_si(with_bubbles(k / volume, gas)),
          Density::from_si(mass / volume * (1 - gas)),
          HeatCapacity::from_si(cp / mass)};
}

}  // namespace barm::heat

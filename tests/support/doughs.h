#pragma once
// Doughs put together by hand, for tests of the kinetics alone.
#include "kinetics/dough.h"

namespace barm::test {

/// A plain white dough: a tenth of stiff ripe levain on flour, 72 % water, 2 % salt.
inline kinetics::Dough plain_dough() {
  kinetics::Dough dough;
  dough.water = 0.463;
  dough.water_phase = 0.4638;
  dough.salt = 11.05;
  dough.flour = 0.516;
  dough.lactate = 3.3;
  dough.acetate = 0.66;
  dough.flour_buffering = 10.5;
  dough.ph = 5.83;
  dough.wild_yeast = 2.2e9;
  dough.bacteria = 8.8e10;
  dough.lag = 0.5;
  dough.strength = 0.98;
  dough.rise_limit = 4.2;
  dough.hydration = 0.72;
  return dough;
}

/// The same with everything a drink can bring.
inline kinetics::Dough wine_dough() {
  kinetics::Dough dough = plain_dough();
  dough.ethanol = 20;
  dough.added_hexose = 20;
  dough.acid[static_cast<std::size_t>(chemistry::Acid::tartaric)] = 9;
  dough.acid[static_cast<std::size_t>(chemistry::Acid::malic)] = 4;
  dough.acid[static_cast<std::size_t>(chemistry::Acid::citric)] = 1;
  dough.ph = 4.7;
  dough.free_sulphite = 8;
  dough.sorbate = 20;
  dough.iso_alpha_acids = 8;
  return dough;
}

}  // namespace barm::test

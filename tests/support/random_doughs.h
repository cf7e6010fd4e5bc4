#pragma once
// Doughs of every kind a bowl can hold, and of some it cannot: for tests that must hold everywhere.
#include <cmath>

#include "kinetics/dough.h"
#include "kinetics/parameter.h"
#include "numerics/random.h"
#include "support/doughs.h"

namespace barm::test {

struct RandomDough {
  kinetics::Dough dough;
  kinetics::Parameters<double> parameters;
  double celsius = 24;
};

/// Dough number i, the same each time. Parameters from the priors; 2..45 C; each thing a drink may
/// bring is there in half of the doughs, from nothing to far too much; with levain, with baker's
/// yeast, with both.
inline RandomDough random_dough(std::uint64_t i) {
  numerics::Random random(20, i);
  const auto between = [&](double low, double high) {
    return low + (high - low) * random.uniform();
  };
  const auto perhaps = [&](double high) { return random.uniform() < 0.5 ? 0.0 : between(0, high); };
  RandomDough out;
  out.parameters = kinetics::drawn(random);
  out.celsius = random.uniform() < 0.1 ? between(2, 45) : between(12, 36);
  kinetics::Dough& dough = out.dough;
  dough = plain_dough();
  dough.ethanol = random.uniform() < 0.1 ? between(40, 80) : perhaps(40);
  dough.salt = between(0, 20);
  dough.added_hexose = perhaps(400);
  dough.added_maltose = perhaps(100);
  dough.acetate = between(0, 20);
  dough.free_sulphite = perhaps(20);
  dough.sorbate = perhaps(60);
  dough.iso_alpha_acids = perhaps(30);
  for (const auto acid :
       {chemistry::Acid::tartaric, chemistry::Acid::malic, chemistry::Acid::citric}) {
    dough.acid[static_cast<std::size_t>(acid)] = perhaps(15);
  }
  dough.ph = between(3.9, 6.3);
  dough.lag = between(0, 3);
  dough.rise_limit = between(1.8, 4.6);
  dough.hydration = between(0.5, 0.9);
  dough.carbon_dioxide = perhaps(8);
  const double organisms = random.uniform();
  if (organisms > 0.7) dough.bakers_yeast = std::exp(between(-2, 2));
  if (organisms > 0.85) dough.wild_yeast = dough.bacteria = 0;
  dough.wild_yeast *= std::exp(between(-3, 1));
  dough.bacteria *= std::exp(between(-3, 1));
  dough.pentosan_rise = perhaps(0.8);
  dough.protease = perhaps(0.1);
  dough.slow_hexose = perhaps(200);
  dough.slow_acid = dough.slow_hexose > 0 ? perhaps(8) : 0;
  return out;
}

}  // namespace barm::test

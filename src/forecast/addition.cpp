#include "forecast/addition.h"

#include <optional>

#include "forecast/dough_of.h"
#include "generated/constants.h"
#include "kinetics/system.h"
#include "larder/larder.h"

namespace barm::forecast {

using kinetics::DoughState;

namespace {

// A kilogram of yeast alone has no flour to weigh a bowl by: it is worked out by its dry cells.
DoughState of_yeast(const Draw& draw, const larder::Composition& yeast) {
  DoughState part;
  part.dough.water = part.dough.water_phase = yeast[larder::Property::water];
  part.dough.bakers_yeast = 1000 * yeast[larder::Property::bakers_yeast];
  part.dough.buffering = 1000 * yeast[larder::Property::buffering];
  part.dough.ph = yeast.ph().value();
  part.dough.carbon_dioxide = 0;
  part.state = kinetics::at_mixing(part.dough, draw.parameters);
  return part;
}

Result<DoughState> of_bowl(const Kneaded& kneaded, const Draw& draw) {
  auto settled = draw.settled;
  if (kneaded.extra) {
    const auto extra = larder::typical(kneaded.bake.bowl.back().ingredient);
    if (!extra) return failure(extra);
    if (kneaded.bake.bowl.back().ingredient.group == larder::Group::yeast)
      return of_yeast(draw, *extra);
    settled.push_back(*extra);
  }
  const auto bowl = formula::in_the_bowl(kneaded.bake, settled);
  if (!bowl) return failure(bowl);
  DoughState part;
  part.dough = dough_of(*bowl, settled);
  part.state = kinetics::at_mixing(part.dough, draw.parameters);
  part.flour = bowl->flour / bowl->dough;
  return part;
}

}  // namespace

Kneaded addition_of(const formula::Bake& bake, const formula::Bowl& bowl, const Shares& shares) {
  formula::Bake own = bake;
  std::vector<Mass> masses(own.bowl.size());
  const Mass plain_flour = bowl.flour - bowl.levain_flour;
  std::optional<std::size_t> water;
  for (std::size_t i = 0; i < own.bowl.size(); ++i) {
    const larder::Group group = own.bowl[i].ingredient.group;
    const Mass poured = bowl.lines[i].actual;
    if (group == larder::Group::flour && plain_flour.si() > 0)
      masses[i] = shares.flour * bowl.flour * (poured / plain_flour);
    if (group == larder::Group::salt) masses[i] = shares.flour * poured;
    if (group == larder::Group::water) water = i;
  }
  if (const auto levain = own.find("levain"); levain && shares.levain > 0)
    masses[*levain] = shares.levain * bowl.flour;
  Kneaded kneaded;
  const auto push = [&](const char* name, Mass mass) {
    formula::Portion portion;
    portion.ingredient = *larder::find(name);
    portion.measure = formula::Measure::mass;
    own.bowl.push_back(portion);
    masses.push_back(mass);
    kneaded.extra = true;
  };
  const Mass poured = shares.flour * bowl.real_hydration() * bowl.flour;
  if (shares.flour > 0 && water) masses[*water] = poured;
  if (shares.flour > 0 && !water) push("water", poured);
  if (shares.yeast > 0) push("fresh yeast", shares.yeast * bowl.flour);
  kneaded.bake = formula::by_weight(own, masses);
  return kneaded;
}

Addition weights(const Kneaded& kneaded) {
  Addition addition;
  for (const formula::Portion& portion : kneaded.bake.bowl) {
    const Mass mass = portion.amount * kilogram;
    if (portion.levain || portion.ingredient.group == larder::Group::starter) {
      addition.levain += mass;
    } else if (portion.ingredient.group == larder::Group::flour) {
      addition.flour += mass;
    } else if (portion.ingredient.group == larder::Group::salt) {
      addition.salt += mass;
    } else if (portion.ingredient.group == larder::Group::yeast) {
      addition.yeast += mass;
    } else if (portion.ingredient.group == larder::Group::water) {
      addition.water += mass;
    }
  }
  return addition;
}

Result<DoughState> knead(const DoughState& dough,
                         const Draw& draw,
                         const Kneaded& kneaded,
                         double celsius) {
  const auto part = of_bowl(kneaded, draw);
  if (!part) return failure(part);
  DoughState before = dough;
  const auto terms = kinetics::terms(before.dough, draw.parameters, celsius, celsius);
  double& held = before.state[kinetics::gas_held];
  held -= constants::rescue::knead_out.value.si() * kinetics::gas_in_bubbles(held, terms.gas);
  const double added = weights(kneaded).all() / kilogram;
  return kinetics::blend(before, *part, added / (added + draw.bowl.dough.in(kilogram)));
}

}  // namespace barm::forecast

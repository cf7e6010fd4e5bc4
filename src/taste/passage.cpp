#include "taste/passage.h"

#include <algorithm>
#include <cmath>

#include "generated/constants.h"

namespace barm::taste {

namespace {

namespace phases_of = constants::dough_phases;

double held(const Scent& scent, const Phases& phases, const Baking& baking) {
  const double in_fat = std::pow(10, phases_of::fat_scale.value.si() * scent.log_kow);
  const double in_flour = std::pow(10, phases_of::starch_scale.value.si() * scent.log_kow);
  return phases.fat * in_fat + phases.dry_flour * baking.starch_share * in_flour;
}

double undissociated(const Scent& scent, double ph) {
  return scent.pka ? 1 / (1 + std::pow(10, ph - *scent.pka)) : 1;
}

}  // namespace

Baking usual_baking(double loss) {
  Baking baking;
  baking.loss = loss;
  baking.vented = constants::oven_scent::vented.value.si();
  baking.crust_depth = constants::oven_scent::crust_depth.value.si();
  baking.gas = constants::proof_gas::litres.value.in(litre / kilogram);
  baking.starch_share = phases_of::starch_share.value.si();
  return baking;
}

double free_share(const Scent& scent, const Phases& phases, const Baking& baking) {
  return undissociated(scent, baking.ph) * phases.water /
         (phases.water + held(scent, phases, baking));
}

Result<double> crust_share(const Phases& phases, const Baking& baking) {
  if (baking.crust_share) return *baking.crust_share;
  const double dried = 1 - std::exp(-baking.crust_depth);
  const double share = (baking.loss / phases.water - baking.vented) / (dried - baking.vented);
  if (share <= 1) return std::max(0.0, share);
  return failure(ErrorCode::bad_input,
                 "loss",
                 "a loaf that is crust all through would lose less than that: say a bake loss such "
                 "as 12 %");
}

Passage passage(const Scent& scent,
                double hcp,
                double volatility,
                double microbes,
                const Phases& phases,
                const Baking& baking,
                double crust) {
  Passage out;
  out.free = free_share(scent, phases, baking);
  out.microbes = microbes;
  out.gas = std::exp(-baking.gas * in_air_over_water(hcp) * out.free / phases.water);
  out.crumb = 1 / (1 + volatility * out.free * baking.vented);
  out.crust = 1 / (1 + volatility * out.free * baking.crust_depth);
  out.loaf = (1 - crust) * out.crumb + crust * out.crust;
  return out;
}

Result<Passage> usual_passage(const Scent& scent, const Phases& phases, const Baking& baking) {
  const auto crust = crust_share(phases, baking);
  if (!crust) return failure(crust);
  return passage(
      scent, scent.hcp.middle, scent.volatility, scent.microbes.middle, phases, baking, *crust);
}

double matrix(const Scent& scent, const Phases& phases, const Baking& baking, double dilution) {
  return dilution * (1 + held(scent, phases, baking));
}

double left_in_pan(const Scent& scent, double left, double ph) {
  return std::pow(left, scent.volatility * undissociated(scent, ph));
}

}  // namespace barm::taste

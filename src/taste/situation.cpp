#include "taste/situation.h"

#include <algorithm>
#include <cmath>

#include "forecast/dough_of.h"
#include "generated/constants.h"
#include "kinetics/blend.h"

namespace barm::taste {

namespace {

AtTheOven at_the_oven(const forecast::MiddleDough& forecast) {
  const auto& state = forecast.book.ready ? forecast.book.at_ready : forecast.book.at_end;
  const kinetics::DoughState standing{.dough = forecast::dough_of(forecast.bowl, forecast.settled),
                                      .state = state,
                                      .flour = forecast.bowl.flour / forecast.bowl.dough};
  constexpr double moles = 1e-3;
  AtTheOven out;
  out.ph = forecast.stops.empty() ? state[kinetics::acidity] : forecast.stops.back().ph;
  out.lactate = moles * standing.lactate();
  out.acetate = moles * standing.acetate();
  out.sugar = (state[kinetics::hexose] + state[kinetics::maltose]) * moles *
              constants::molar_mass::hexose.value.in(gram / mole);
  out.known = true;
  return out;
}

}  // namespace

Mass Situation::crust(double share) const {
  const double dried = 1 - std::exp(-baking.crust_depth);
  return piece * (share * (1 - dried * contents.phases.water));
}

Result<Situation> situation_of(const formula::Bake& bake,
                               const OvenSays& oven,
                               const forecast::Options& options) {
  const auto forecast = forecast::foresee_middle(bake, options);
  if (!forecast) return failure(forecast);
  Situation out;
  out.bake = bake;
  out.bowl = forecast->bowl;
  out.contents = contents(bake, out.bowl, forecast->settled);
  out.dough = at_the_oven(*forecast);
  out.baking = usual_baking(oven.loss.value_or(bake.bake_loss));
  out.baking.crust_share = oven.crust_share;
  out.baking.alcohol_kept = oven.alcohol_kept;
  out.baking.ph = out.dough.ph;
  out.ready = forecast->book.ready;
  out.piece = out.bowl.dough * ((1 - bake.handling_loss) / std::max(1, out.bowl.pieces));
  return out;
}

Result<Tasted> tasted(const Situation& situation, const std::vector<Applied>& applied, Luck& luck) {
  return tasted({.contents = &situation.contents,
                 .baking = situation.baking,
                 .dough = situation.dough,
                 .applied = applied},
                luck);
}

Result<Tasted> tasted(const Situation& situation, Luck& luck) {
  return tasted(situation, {}, luck);
}

}  // namespace barm::taste

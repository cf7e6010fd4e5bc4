#include "service/bake/bowl.h"

#include <nlohmann/json.hpp>

#include "forecast/draw.h"
#include "formula/cautions.h"
#include "formula/read.h"
#include "service/bake/prepared.h"
#include "service/internal/json_parts.h"
#include "service/internal/object.h"

namespace barm::service {

using internal::object;
using nlohmann::json;

namespace {

json bowl_body(const BowlAnswer& answer) {
  const formula::Bowl& bowl = answer.bowl;
  json lines = json::array();
  for (const formula::Weighed& line : bowl.lines) {
    lines.push_back(object({{"ingredient", line.name},
                            {"plan_g", line.plan.in(gram)},
                            {"actual_g", line.actual.in(gram)},
                            {"volume_mL", line.volume.in(millilitre)},
                            {"of_flour", line.share.value()}}));
  }
  json mend = object({{"needed", answer.mend.needed},
                      {"possible", answer.mend.possible},
                      {"words", answer.mend.words}});
  mend["extra_dough_g"] = answer.mend.extra_dough.in(gram);
  mend["pour_less"] = nullptr;
  if (const auto& less = answer.mend.pour_less) {
    mend["pour_less"] = object({{"ingredient", less->ingredient},
                                {"mass_g", less->by.in(gram)},
                                {"leaves_g", less->leaves.in(gram)}});
  }
  mend["add"] = json::array();
  for (const auto& addition : answer.mend.add) {
    mend["add"].push_back(
        object({{"ingredient", addition.ingredient}, {"mass_g", addition.mass.in(gram)}}));
  }
  return object(
      {{"name", answer.bake.name},
       {"pieces", bowl.pieces},
       {"piece_g", bowl.piece.in(gram)},
       {"lines", lines},
       {"dough_g", bowl.dough.in(gram)},
       {"flour_g", bowl.flour.in(gram)},
       {"percent_of_g", bowl.percent_of.in(gram)},
       {"percent_of", bowl.percent_of_what()},
       {"liquid_of_flour", bowl.liquid_hydration()},
       {"real_water_of_flour", bowl.real_hydration()},
       {"ethanol_g", bowl.ethanol.in(gram)},
       {"ethanol_of_dough", bowl.ethanol_of_dough().value()},
       {"ethanol_in_water_g_per_L", bowl.ethanol_in_water().in(gram / litre)},
       {"liquid_strength_percent_vol", bowl.strength_of_liquid().percent()},
       {"salt_g", bowl.salt.in(gram)},
       {"salt_in_water_g_per_L", bowl.salt_in_water().in(gram / litre)},
       {"sugar_in_water_g_per_L", bowl.sugar_in_water().in(gram / litre)},
       {"ph_at_mixing", bowl.ph.value()},
       {"total_sulphite_mg_per_kg", bowl.total_sulphite.in(milligram) / bowl.dough.in(kilogram)},
       {"free_sulphite_mg_per_kg", bowl.free_sulphite.in(milligram) / bowl.dough.in(kilogram)},
       {"sorbate_mg_per_kg", bowl.sorbate.in(milligram) / bowl.dough.in(kilogram)},
       {"carbon_dioxide_g", bowl.carbon_dioxide.in(gram)},
       {"contraction_mL", bowl.contraction.in(millilitre)},
       {"water_activity", bowl.water_activity},
       {"mend", mend},
       {"to_prepare", to_json(to_prepare(answer.bake, bowl))},
       {"cautions", answer.cautions},
       {"doubts", answer.doubts}});
}

}  // namespace

Result<BowlAnswer> bowl_answer(const formula::Bake& bake, const formula::Bowl& bowl) {
  auto mend = formula::mend(bake);
  if (!mend) return failure(mend);
  return BowlAnswer{
      bake, bowl, std::move(*mend), formula::cautions(bake, bowl), formula::doubts(bake)};
}

Result<BowlAnswer> bowl(const formula::Bake& bake) {
  const auto middle = forecast::draw(bake, 1, -1);
  if (!middle) return failure(middle);
  return bowl_answer(bake, middle->bowl);
}

Result<BowlAnswer> bowl(const std::string& path) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  return service::bowl(*bake);
}

json to_json(const BowlAnswer& answer) {
  json out = internal::document("bowl");
  out["bowl"] = bowl_body(answer);
  return out;
}

}  // namespace barm::service

#include "service/bake/thin.h"

#include <nlohmann/json.hpp>

#include "formula/amount.h"
#include "service/internal/json_parts.h"
#include "service/larder/larder.h"

namespace barm::service {

using nlohmann::json;

Result<ThinAnswer> thin(const std::string& drink, const std::string& strength, Mass total) {
  const auto ingredient = named_in_larder("drink", drink);
  if (!ingredient) return failure(ingredient);
  const auto wanted = formula::parse_amount(strength);
  if (!wanted || wanted->kind != formula::WrittenAmount::Kind::percent) {
    return failure(ErrorCode::bad_input, "--to", "a strength such as '5 % vol'");
  }
  const AlcoholByVolume to(wanted->value);
  auto thinned = formula::thin(*ingredient, to, total);
  if (!thinned) return failure(thinned);
  return ThinAnswer{ingredient->name, to, std::move(*thinned)};
}

json to_json(const ThinAnswer& answer) {
  json out = internal::document("thin");
  out["drink"] = answer.drink;
  out["strength_percent_vol"] = answer.wanted.percent();
  out["drink_g"] = answer.thinned.drink.in(gram);
  out["water_g"] = answer.thinned.water.in(gram);
  out["drink_mL"] = answer.thinned.drink_volume.in(millilitre);
  out["water_mL"] = answer.thinned.water_volume.in(millilitre);
  out["together_mL"] = answer.thinned.together.in(millilitre);
  out["working"] = answer.thinned.working;
  return out;
}

}  // namespace barm::service

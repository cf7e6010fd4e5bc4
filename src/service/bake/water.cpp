#include "service/bake/water.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "service/internal/json_parts.h"

namespace barm::service {

using nlohmann::json;

Result<WaterAnswer> water(const WaterRequest& request) {
  if (!std::isfinite(request.mixing.friction.si()) || request.mixing.friction.si() < 0) {
    return failure(ErrorCode::bad_input, "friction", "degrees Celsius such as 4");
  }
  if (request.water && request.water->si() <= 0) {
    return failure(ErrorCode::bad_input, "water", "a weight such as 2kg");
  }
  const auto temperature = formula::water_temperature(request.mixing);
  if (!temperature) return failure(temperature);
  WaterAnswer answer{request, *temperature, std::nullopt};
  if (request.water && request.tap) {
    const auto ice = formula::ice(*request.water, *request.tap, *temperature);
    if (!ice) return failure(ice);
    answer.ice = *ice;
  }
  return answer;
}

json to_json(const WaterAnswer& answer) {
  json out = internal::document("water");
  out["water_C"] = answer.water.celsius();
  out["ice_g"] = answer.ice ? json(answer.ice->in(gram)) : json(nullptr);
  return out;
}

}  // namespace barm::service

#include "service/house/fridge.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "forecast/bodies.h"
#include "forecast/ensemble.h"
#include "forecast/warmth.h"
#include "generated/constants.h"
#include "heat/probe.h"
#include "service/house/equipment.h"
#include "service/internal/object.h"
#include "storage/record_json.h"

namespace barm::service {

using internal::object;
using nlohmann::json;

namespace {

const formula::Stage* cold_stage(const formula::Bake& bake) {
  for (const formula::Stage& stage : bake.stages) {
    if (stage.step == formula::Step::cold) return &stage;
  }
  return nullptr;
}

// The heat of the typical dough when it has reached its target, or at the end of its run [W/kg].
double warming_at_target(const forecast::MiddleDough& forecast) {
  const auto warming = forecast::warming_of(forecast.book);
  double out = 0;
  const double at = forecast.book.ready ? forecast.book.ready->in(hour) : 0;
  for (const heat::Warming& one : warming) {
    if (one.from <= at) out = one.per_mass;
  }
  return out;
}

Result<heat::Load> load_of(const formula::Bake& bake, int pieces) {
  const auto forecast = forecast::foresee_middle(bake, {});
  if (!forecast) return failure(forecast);
  forecast::Draw draw;
  draw.bowl = forecast->bowl;
  draw.settled = forecast->settled;
  const formula::Stage* cold = cold_stage(bake);
  const formula::Surroundings surroundings =
      cold != nullptr ? cold->surroundings : formula::Surroundings{};
  heat::Load load;
  const Mass piece = draw.bowl.pieces > 0 ? draw.bowl.piece : draw.bowl.dough;
  load.each = surroundings.each.value_or(piece);
  load.pieces = pieces > 0 ? pieces : std::max(1, draw.bowl.pieces);
  load.start = bake.bulk_temperature();
  load.body = forecast::body_in(surroundings,
                                surroundings.vessel.value_or(formula::Vessel::basket),
                                load.each,
                                forecast::makeup_of(draw),
                                Temperature::from_celsius(0.5 * (load.start.celsius() + 4)),
                                std::max(1.3, 0.8 * forecast->target),
                                0);
  load.warming = warming_at_target(*forecast);
  return load;
}

Result<bool> check(const FridgeRequest& request, const heat::Fridge& fridge) {
  const double set = fridge.set.celsius();
  if (!(set >= -2 && set <= 15))
    return failure(
        ErrorCode::bad_input,
        "set",
        fmt::format("a fridge at {:g} °C is none: from -2 °C to 15 °C, such as 4C", set));
  if (request.pieces < 0 || request.pieces > 2000)
    return failure(ErrorCode::bad_input, "pieces", "1 to 2000 pieces go in");
  if (!(fridge.power >= 10 && fridge.power <= 50000))
    return failure(ErrorCode::bad_input, "power", "a fridge takes out 10 W to 50 kW");
  if (!(request.lasts.in(hour) >= 0.5 && request.lasts.in(hour) <= 96))
    return failure(ErrorCode::bad_input, "lasts", "from half an hour to 4 days, such as 12h");
  return true;
}

// What the request says of it, over what is known of the house's.
Result<formula::FridgeTable> can_of(const FridgeRequest& request) {
  formula::FridgeTable can;
  if (request.of) {
    const auto known = formula::parse_fridge(request.of->toml, "toml");
    if (!known) return failure(known);
    can = *known;
  }
  if (request.set) can.set = request.set;
  if (request.power) can.watts = request.power;
  return can;
}

std::string poor_fit(double air_off) {
  if (!(air_off > heat::poor_air)) return "";
  return fmt::format(
      "This fits no fridge well: the best is still {:.1f} °C off the probe, where half a degree is "
      "usual. So little of it is believed. Often the door was opened, the probe touched a dough or "
      "a wall, or other things came in. One more load, measured with the probe free in the air, "
      "would help.",
      air_off);
}

// The record of the house's fridge with what was said and learned of it.
std::optional<storage::Equipment> to_keep(const FridgeAnswer& answer, formula::FridgeTable can) {
  if (!answer.request.of) return std::nullopt;
  storage::Equipment keep = *answer.request.of;
  if (answer.air_off) {
    can = {answer.fridge.set, answer.fridge.power, answer.fridge.capacity / 1000};
    keep.measured = lessons_text({Lesson{answer.request.measured_at, answer.name, {}}});
  }
  keep.toml = formula::lines_of(can);
  return keep;
}

}  // namespace

Result<FridgeAnswer> fridge(const formula::Bake& bake, const FridgeRequest& request) {
  FridgeAnswer answer;
  answer.name = bake.name;
  answer.request = request;
  answer.fridge = heat::usual_fridge();
  const formula::Stage* cold = cold_stage(bake);
  if (cold != nullptr) answer.fridge.set = cold->temperature;
  const auto can = can_of(request);
  if (!can) return failure(can);
  answer.with = request.with;
  answer.fridge.set = can->set.value_or(answer.fridge.set);
  answer.fridge.power = can->watts.value_or(answer.fridge.power);
  if (can->kilojoules_per_kelvin) answer.fridge.capacity = 1000 * *can->kilojoules_per_kelvin;
  if (const auto fits = check(request, answer.fridge); !fits) return failure(fits);
  const auto load = load_of(bake, request.pieces);
  if (!load) return failure(load);
  answer.request.pieces = load->pieces;
  if (!request.probe.empty()) {
    const auto learned = heat::learn_fridge(request.probe, *load);
    if (!learned) return failure(learned.error().code, "probe", learned.error().message);
    answer.fridge = learned->fridge;
    answer.air_off = learned->air_off;
    for (const std::string& note : {heat::gaps_in_words(request.probe), poor_fit(learned->air_off)})
      if (!note.empty()) answer.notes.push_back(note);
  }
  answer.keep = to_keep(answer, *can);
  answer.each = load->each;
  answer.start = load->start;
  answer.wanted = request.wanted.value_or(constants::fridge::cold_core.value);
  answer.within = request.within.value_or(constants::fridge::cold_within.value);
  answer.course = heat::chill(answer.fridge, *load, request.lasts);
  for (const heat::Chilled& one : answer.course) {
    if (one.air > answer.air_peak || one.hours == 0) {
      answer.air_peak = one.air;
      answer.air_peak_h = one.hours;
    }
    if (!answer.cold_after && one.middle <= answer.wanted.celsius())
      answer.cold_after = one.hours * hour;
  }
  answer.at_once = heat::most_at_once(answer.fridge, *load, answer.wanted, answer.within);
  return answer;
}

json to_json(const FridgeAnswer& answer) {
  json course = json::array();
  for (std::size_t i = 0; i < answer.course.size(); i += 5) {
    const heat::Chilled& one = answer.course[i];
    course.push_back(object(
        {{"at_h", one.hours}, {"air_C", one.air}, {"middle_C", one.middle}, {"mean_C", one.mean}}));
  }
  return object({{"schema", "barm.fridge/1"},
                 {"name", answer.name},
                 {"pieces", answer.request.pieces},
                 {"piece_g", answer.each.in(gram)},
                 {"start_C", answer.start.celsius()},
                 {"set_C", answer.fridge.set.celsius()},
                 {"power_W", answer.fridge.power},
                 {"capacity_J_per_K", answer.fridge.capacity},
                 {"air_peak_C", answer.air_peak},
                 {"air_peak_h", answer.air_peak_h},
                 {"wanted_C", answer.wanted.celsius()},
                 {"within_h", answer.within.in(hour)},
                 {"looked_h", answer.request.lasts.in(hour)},
                 {"cold_after_h", answer.cold_after ? json(answer.cold_after->in(hour)) : json()},
                 {"pieces_at_once", answer.at_once},
                 {"notes", answer.notes},
                 {"air_off_K", answer.air_off ? json(*answer.air_off) : json()},
                 {"with", answer.with},
                 {"keep", answer.keep ? storage::to_json(*answer.keep) : json()},
                 {"course", course}});
}

}  // namespace barm::service

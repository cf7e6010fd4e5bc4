#include <nlohmann/json.hpp>

#include "service/bake/rescue.h"
#include "service/internal/json_parts.h"
#include "service/internal/object.h"

namespace barm::service {

using forecast::WayOut;
using internal::hours;
using internal::object;
using internal::spread;
using nlohmann::json;

namespace {

json of_way(const WayOut& way, Time now) {
  const forecast::Addition& add = way.addition;
  return object({{"way", name(way.remedy)},
                 {"place_C", way.place ? json(way.place->celsius()) : json(nullptr)},
                 {"add",
                  object({{"flour_g", add.flour.in(gram)},
                          {"water_g", add.water.in(gram)},
                          {"salt_g", add.salt.in(gram)},
                          {"levain_g", add.levain.in(gram)},
                          {"yeast_g", add.yeast.in(gram)}})},
                 {"chance_in_time", way.in_time.value()},
                 {"ready", spread(way.ready)},
                 {"ready_now", ready_now(way, now)},
                 {"past_its_best", spread(way.past)},
                 {"too_warm", way.too_warm},
                 {"alcohol_in_water_before_g_per_L", way.alcohol_before},
                 {"alcohol_in_water_after_g_per_L", way.alcohol_after},
                 {"speed_of_gas", way.speed}});
}

}  // namespace

json to_json(const RescueAnswer& answer) {
  const forecast::Rescue& rescue = answer.rescue;
  json out = object(
      {{"schema", "barm.rescue/1"},
       {"name", answer.bake.name},
       {"mixed_at", answer.bake.mixed_at ? json(answer.bake.mixed_at->text()) : json(nullptr)},
       {"now_h", rescue.options.now.in(hour)},
       {"by_h", rescue.options.by.in(hour)},
       {"not_before_h", hours(rescue.options.not_before)},
       {"target_volume_ratio", rescue.target},
       {"temperature_C", rescue.temperature.celsius()},
       {"rise_now",
        object({{"p10", rescue.rise_low}, {"p50", rescue.rise_middle}, {"p90", rescue.rise_high}})},
       {"draws", rescue.draws},
       {"imagined", rescue.imagined},
       {"culture", answer.culture},
       {"rests_on", answer.rests_on},
       {"give_up_h", hours(rescue.giving_up.at)},
       {"give_up", answer.giving_up},
       {"bowl_money", answer.bowl_money ? json(*answer.bowl_money) : json(nullptr)},
       {"currency", answer.currency},
       {"cautions", answer.cautions}});
  out["ways"] = json::array();
  for (const ToldWay& told : answer.ways) {
    json way = of_way(told.way, rescue.options.now);
    way["what"] = told.what;
    way["reason"] = told.reason;
    way["cost"] = told.cost;
    way["money"] = told.money ? json(*told.money) : json(nullptr);
    way["advised"] = told.advised;
    out["ways"].push_back(way);
  }
  out["tried"] = json::array();
  for (const WayOut& way : answer.all) out["tried"].push_back(of_way(way, rescue.options.now));
  return out;
}

}  // namespace barm::service

#include "service/bake/aim.h"

#include <nlohmann/json.hpp>

#include "service/internal/object.h"

namespace barm::service {

using internal::object;
using nlohmann::json;

Result<std::optional<forecast::ReadyFor>> aim(formula::Bake& bake,
                                              forecast::Options& options,
                                              forecast::Made& made) {
  auto found = forecast::ready_for(bake, options, made);
  if (!found || !*found || !bake.target_follows || options.target > 0) return found;
  options.target = (*found)->p50;
  for (formula::Stage& stage : bake.stages) {
    if (stage.step == formula::Step::bulk) stage.until = options.target;
  }
  return found;
}

json to_json(const forecast::ReadyFor& ready_for) {
  json after = json::array();
  for (const formula::Step step : ready_for.after) after.push_back(formula::name(step));
  const auto trade = [](const forecast::TradeFigure& figure) {
    return object({{"least_ratio", figure.least}, {"most_ratio", figure.most}});
  };
  json oven;
  if (ready_for.oven) {
    oven = object({{"at_h", ready_for.oven->end.in(hour)},
                   {"volume_ratio", ready_for.oven->rise},
                   {"ph", ready_for.oven->ph},
                   {"room_left", ready_for.oven->room_left},
                   {"dough_C", ready_for.oven->dough.celsius()}});
  }
  return object({{"after", after},
                 {"cold_h", ready_for.cold.in(hour)},
                 {"proof_h", ready_for.proof.in(hour)},
                 {"room_wanted", ready_for.room},
                 {"bulk_p10_ratio", ready_for.p10},
                 {"bulk_p50_ratio", ready_for.p50},
                 {"bulk_p90_ratio", ready_for.p90},
                 {"chance_too_long", ready_for.too_long.value()},
                 {"asked_ratio", ready_for.asked},
                 {"chance_asked_leaves_room", ready_for.asked_leaves.value()},
                 {"at_the_oven", oven},
                 {"trade_stiff_mild", trade(ready_for.stiff_mild)},
                 {"trade_liquid_sour", trade(ready_for.liquid_sour)},
                 {"starter_is_stiff", ready_for.starter_is_stiff},
                 {"draws", ready_for.draws}});
}

}  // namespace barm::service

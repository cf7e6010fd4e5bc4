#include "service/bake/foresee.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "formula/read.h"
#include "generated/constants.h"
#include "service/bake/aim.h"
#include "service/bake/head.h"
#include "service/bake/internal/spoils.h"
#include "service/bake/why.h"
#include "service/internal/json_parts.h"
#include "service/internal/object.h"
#include "service/now.h"
#include "service/words.h"

namespace barm::service {

using internal::object;
using nlohmann::json;

namespace {

// Dairy and eggs that stay long above pH 4.6 and 10 C.
std::vector<std::string> time_and_temperature(const formula::Bake& bake,
                                              Temperature temperature,
                                              const forecast::Forecast& forecast) {
  namespace limits = constants::caution;
  const Time mild = std::min(forecast.sour.p50.value_or(forecast.horizon),
                             forecast.ready.p50.value_or(forecast.horizon));
  if (!internal::spoils_warm(bake) || temperature <= limits::warm.value ||
      mild < limits::warm_long.value)
    return {};
  return {
      fmt::format("Milk or egg stands about {} at {} above pH {}, where germs grow best. Your food "
                  "authority's rules hold.",
                  span(mild),
                  warmth(temperature),
                  limits::mild.value.value())};
}

}  // namespace

Result<ForeseeAnswer> foresee(const formula::Bake& asked, const forecast::Options& wanted) {
  formula::Bake bake = asked;
  forecast::Options options = wanted;
  forecast::Made made;
  auto ready_for = aim(bake, options, made);
  if (!ready_for) return failure(ready_for);
  auto forecast = forecast::foresee(bake, options, made);
  if (!forecast) return failure(forecast);
  auto baked = through_the_oven(forecast->timeline, bake, options);
  if (!baked) return failure(baked);
  auto hindrances = forecast::in_the_way(bake, options, forecast->ready, made);
  if (!hindrances) return failure(hindrances);
  std::optional<forecast::WhyNever> why;
  if (!forecast->ready.p50) {
    auto found = forecast::why_never(bake, options, forecast->largest_rises);
    if (!found) return failure(found);
    why = std::move(*found);
  }
  auto in_bowl = bowl_answer(bake, forecast->bowl);
  if (!in_bowl) return failure(in_bowl);
  ForeseeAnswer answer{.bowl = std::move(*in_bowl),
                       .forecast = std::move(*forecast),
                       .in_the_way = std::move(*hindrances),
                       .why_never = std::move(why),
                       .ready_for = std::move(*ready_for),
                       .temperature = {},
                       .look_again = std::nullopt,
                       .cautions = {},
                       .now = std::nullopt,
                       .oven = *std::move(baked)};
  answer.temperature = options.temperature.value_or(bake.bulk_temperature());
  if (answer.forecast.guess_that_decides)
    answer.bowl.doubts.push_back(*answer.forecast.guess_that_decides);
  answer.look_again = answer.forecast.fifth.p10;
  answer.cautions = time_and_temperature(bake, answer.temperature, answer.forecast);
  return answer;
}

Result<ForeseeAnswer> foresee(const std::string& path, const forecast::Options& options) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  return service::foresee(*bake, options);
}

json to_json(const ForeseeAnswer& answer) {
  const forecast::Forecast& forecast = answer.forecast;
  json out = object({{"schema", "barm.foresee/2"}});
  out["bowl"] = to_json(answer.bowl)["bowl"];
  const time::WallClock clock = clock_of(answer.bowl.bake);
  out["mixed_at"] =
      answer.bowl.bake.mixed_at ? json(answer.bowl.bake.mixed_at->text()) : json(nullptr);
  out["temperature_C"] = answer.temperature.celsius();
  out["target_volume_ratio"] = forecast.target;
  out["horizon_h"] = forecast.horizon.in(hour);
  out["draws"] = forecast.draws;
  out["ready"] = internal::spread(forecast.ready);
  if (forecast.ready.p50) out["ready"]["p50_at"] = clock.iso(*forecast.ready.p50);
  out["risen_by_a_fifth"] = internal::spread(forecast.fifth);
  out["past_its_best"] = internal::spread(forecast.past);
  out["chance_never"] = forecast.never.value();
  out["look_again_h"] = internal::hours(answer.look_again);
  json band = json::array();
  for (const forecast::Band& at : forecast.band) {
    band.push_back(object(
        {{"t_h", at.hours}, {"p10_ratio", at.p10}, {"p50_ratio", at.p50}, {"p90_ratio", at.p90}}));
  }
  out["rise"] = band;
  out["in_the_way"] = to_json(answer.in_the_way);
  add_limits(out, forecast, answer.why_never, clock);
  add_timeline(out, forecast.timeline, answer.bowl.bake, clock, answer.now);
  out["oven"] = in_brief(answer.oven);
  out["ready_for"] = answer.ready_for ? to_json(*answer.ready_for) : json();
  out["ph_4_6"] = internal::spread(forecast.sour);
  out["cautions"] = answer.cautions;
  return out;
}

}  // namespace barm::service

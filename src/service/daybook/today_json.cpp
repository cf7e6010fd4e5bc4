#include <nlohmann/json.hpp>

#include "service/daybook/daybook.h"
#include "service/internal/object.h"

namespace barm::service {

using internal::object;
using nlohmann::json;

namespace {

json moment_or_null(const std::optional<time::Instant>& moment) {
  return moment ? json(moment->text()) : json(nullptr);
}

}  // namespace

json to_json(const TodayAnswer& answer) {
  json doughs = json::array();
  for (const DoughToday& dough : answer.doughs) {
    doughs.push_back(object({{"bake", dough.bake},
                             {"title", dough.title},
                             {"state", dough.state},
                             {"mixed_at", moment_or_null(dough.mixed_at)},
                             {"head", dough.head},
                             {"next", dough.next},
                             {"next_at", moment_or_null(dough.next_at)},
                             {"ready_p10_at", moment_or_null(dough.ready_p10)},
                             {"ready_p50_at", moment_or_null(dough.ready_p50)},
                             {"ready_p90_at", moment_or_null(dough.ready_p90)},
                             {"ready_at", dough.ready},
                             {"rests_on", dough.rests_on},
                             {"late", dough.late}}));
  }
  json levains = json::array();
  for (const LevainToday& levain : answer.levains) {
    levains.push_back(object({{"culture", levain.culture},
                              {"title", levain.title},
                              {"fed_at", moment_or_null(levain.fed_at)},
                              {"peak_p10_at", moment_or_null(levain.peak_p10)},
                              {"peak_at", moment_or_null(levain.peak_at)},
                              {"peak_p90_at", moment_or_null(levain.peak_p90)},
                              {"next", levain.next},
                              {"next_at", moment_or_null(levain.next_at)},
                              {"wanted", levain.wanted}}));
  }
  json weigh = json::array();
  for (const WeighToday& line : answer.weigh)
    weigh.push_back(object({{"ingredient", line.ingredient}, {"mass_g", line.mass.in(gram)}}));
  return object({{"schema", "barm.today/1"},
                 {"now", answer.now.text()},
                 {"invented", answer.invented},
                 {"clock", answer.clock ? json(*answer.clock) : json()},
                 {"doughs", doughs},
                 {"levains", levains},
                 {"feed_tonight", answer.feed_tonight},
                 {"buy", answer.buy},
                 {"weigh_day", answer.weigh_day},
                 {"ordinary", answer.ordinary},
                 {"weigh", weigh},
                 {"day", to_json(answer.day)}});
}

}  // namespace barm::service

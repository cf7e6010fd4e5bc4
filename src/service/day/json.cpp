#include <nlohmann/json.hpp>

#include "service/day/day.h"
#include "service/internal/object.h"

namespace barm::service {

using internal::object;

namespace {

using nlohmann::json;

json chance_json(const dayplan::Chance& chance) {
  return object({{"chance", chance.value()},
                 {"low", chance.low()},
                 {"high", chance.high()},
                 {"draws", chance.draws}});
}

json moment_json(const std::optional<time::Instant>& at) { return at ? json(at->text()) : json(); }

json step_json(const DayAnswer& answer, const DayStep& step) {
  return object({{"bake", step.bake},
                 {"step", step.what},
                 {"begins", step.begins.text()},
                 {"begins_local", answer.zone.local(step.begins).text()},
                 {"ends", step.ends.text()},
                 {"earliest", moment_json(step.earliest)},
                 {"latest", moment_json(step.latest)},
                 {"begun", step.begun},
                 {"hands", step.hands},
                 {"hands_free", step.hands_free},
                 {"places", step.places}});
}

json held_json(const HeldRow& row) {
  json by = json::array();
  for (const HeldBy& each : row.by)
    by.push_back(object({{"bake", each.bake},
                         {"step", each.step},
                         {"from", each.from.text()},
                         {"to", each.to.text()},
                         {"amount", each.amount}}));
  return object({{"what", row.what}, {"of", row.of}, {"by", by}});
}

}  // namespace

json to_json(const DayAnswer& answer) {
  json steps = json::array();
  for (const DayStep& step : answer.steps) steps.push_back(step_json(answer, step));
  json free = json::array();
  for (const FreeHands& some : answer.free)
    free.push_back(
        object({{"from", some.from.text()}, {"to", some.to.text()}, {"pairs", some.pairs}}));
  json held = json::array();
  for (const HeldRow& row : answer.held) held.push_back(held_json(row));
  json plan = json::array();
  for (const BakePlan& one : answer.plan) {
    json begins = json::array();
    for (const time::Instant& at : one.begins) begins.push_back(at.text());
    plan.push_back(object({{"bake", one.bake}, {"way", one.way}, {"begins", begins}}));
  }
  json each = json::array();
  for (const auto& [bake, chance] : answer.each) {
    each.push_back(chance_json(chance));
    each.back()["bake"] = bake;
  }
  return object({{"schema", "barm.day/1"},
                 {"name", answer.name},
                 {"begins", answer.begins.text()},
                 {"bread", answer.bread.text()},
                 {"planned", answer.planned},
                 {"best", answer.best},
                 {"steps", steps},
                 {"free_hands", free},
                 {"held", held},
                 {"ways", answer.ways},
                 {"why_not", answer.why_not},
                 {"collisions", answer.collisions},
                 {"doubts", answer.doubts},
                 {"chance", answer.chance ? chance_json(*answer.chance) : json()},
                 {"by_the_clock", answer.by_the_clock ? chance_json(*answer.by_the_clock) : json()},
                 {"each", each},
                 {"plan", plan},
                 {"moved", answer.moved},
                 {"refused", answer.refused},
                 {"lists", to_json(answer.lists)},
                 {"cautions", answer.cautions},
                 {"made_with_draws", answer.draws},
                 {"made_from", answer.made_from}});
}

}  // namespace barm::service

#include "service/kept_day.h"

#include <nlohmann/json.hpp>

#include "service/day_anew.h"

namespace barm::service {

namespace {

using nlohmann::json;
using storage::Daybook;

constexpr const char* kept_as = "day-plan";
constexpr std::size_t most_next = 4;
constexpr std::int64_t still_shown_s = 900;

std::string word(const json& object, const char* key) {
  const auto found = object.is_object() ? object.find(key) : object.end();
  return object.is_object() && found != object.end() && found->is_string()
             ? found->get<std::string>()
             : "";
}

std::optional<KeptStep> step_of(const json& step) {
  const auto begins = time::parse_instant(word(step, "begins"));
  const auto ends = time::parse_instant(word(step, "ends"));
  if (!begins || !ends || step.value("begun", json()) == json(true)) return std::nullopt;
  return KeptStep{word(step, "bake"), word(step, "step"), *begins, *ends};
}

/// As written by keep_day() or the page; nothing for anything else.
std::optional<KeptPlan> plan_kept(const std::string& value, const Now& now) {
  const json kept = json::parse(value, nullptr, false);
  if (!kept.is_object() || !kept.contains("answer")) return std::nullopt;
  const json& answer = kept["answer"];
  const auto bread = time::parse_instant(word(answer, "bread"));
  if (!bread || *bread < now.at || !answer.contains("steps") || !answer["steps"].is_array())
    return std::nullopt;
  KeptPlan out{word(answer, "name"), *bread, word(kept, "day"), word(answer, "made_from"), {}, {}};
  for (const json& step : answer["steps"]) {
    if (auto one = step_of(step)) out.steps.push_back(std::move(*one));
  }
  const json plan = answer.value("plan", json::array());
  for (const json& each : plan.is_array() ? plan : json::array()) {
    BakePlan bake{word(each, "bake"), word(each, "way"), {}};
    for (const json& at : each.value("begins", json::array())) {
      const auto begins = time::parse_instant(at.is_string() ? at.get<std::string>() : "");
      if (begins) bake.begins.push_back(*begins);
    }
    out.plan.push_back(std::move(bake));
  }
  return out;
}

/// What of these steps is next.
std::vector<KeptStep> next_of(const std::vector<KeptStep>& steps, const Now& now) {
  std::vector<KeptStep> out;
  for (const KeptStep& step : steps) {
    if (step.ends + still_shown_s >= now.at && out.size() < most_next) out.push_back(step);
  }
  return out;
}

}  // namespace

Result<storage::Setting> keep_day(storage::Daybook& daybook,
                                  const std::string& text,
                                  const DayAnswer& answer,
                                  const Now& now) {
  if (!answer.planned)
    return failure(ErrorCode::bad_input, "--keep", "there is no plan: leave it out to see why");
  storage::Setting setting;
  setting.id = kept_as;
  const auto before = daybook.get<storage::Setting>(kept_as);
  if (!before && before.error().code != ErrorCode::not_found) return failure(before);
  if (before) setting.revision = before->revision;
  const json kept = {{"schema", "barm.kept_day/1"}, {"day", text}, {"answer", to_json(answer)}};
  setting.value = kept.dump(-1, ' ', false, json::error_handler_t::replace);
  return daybook.save(std::move(setting), now.at);
}

Result<std::optional<KeptDay>> kept_day(Daybook& daybook,
                                        const Now& now,
                                        const std::function<bool()>& cancelled) {
  const auto setting = daybook.get<storage::Setting>(kept_as);
  if (!setting && setting.error().code == ErrorCode::not_found) return std::optional<KeptDay>();
  if (!setting) return failure(setting);
  if (setting->deleted_at) return std::optional<KeptDay>();
  const auto plan = plan_kept(setting->value, now);
  if (!plan) return std::optional<KeptDay>();
  auto anew = day_anew(daybook, *plan, now, cancelled);
  if (!anew) return failure(anew);
  KeptDay out{plan->name, plan->bread, {}, {}};
  out.next = next_of(*anew ? (*anew)->steps : plan->steps, now);
  if (*anew) out.anew = std::move((*anew)->told);
  return std::optional(std::move(out));
}

json to_json(const std::optional<KeptDay>& day) {
  if (!day) return {};
  json next = json::array();
  for (const KeptStep& step : day->next) {
    next.push_back({{"bake", step.bake},
                    {"step", step.step},
                    {"begins", step.begins.text()},
                    {"ends", step.ends.text()}});
  }
  return {{"name", day->name}, {"bread", day->bread.text()}, {"next", next}, {"anew", day->anew}};
}

}  // namespace barm::service

#include "service/day/kept_day.h"

#include <nlohmann/json.hpp>

#include "service/day/anew.h"
#include "service/day/under_way.h"
#include "service/internal/object.h"

namespace barm::service {

using internal::object;

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

/// A plan that the house goes by.
struct KeptPlan {
  std::string name;
  time::Instant bread;
  MadePlan made;
  std::vector<KeptStep> steps;  ///< that had not begun, by the clock
  int draws = 0;                ///< it was made with
};

/// As written by keep_day() or the page; nothing for anything else.
std::optional<KeptPlan> plan_kept(const std::string& value, const Now& now) {
  const json kept = json::parse(value, nullptr, false);
  if (!kept.is_object() || !kept.contains("answer")) return std::nullopt;
  const json& answer = kept["answer"];
  const auto bread = time::parse_instant(word(answer, "bread"));
  if (!bread || *bread < now.at || !answer.contains("steps") || !answer["steps"].is_array())
    return std::nullopt;
  KeptPlan out{
      word(answer, "name"), *bread, {word(kept, "day"), word(answer, "made_from"), {}}, {}, 0};
  const json draws = answer.value("made_with_draws", json());
  if (draws.is_number_integer()) out.draws = draws.get<int>();
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
    out.made.plan.push_back(std::move(bake));
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

/// The setting, where a plan is kept in it whose bread is still to come.
Result<std::optional<storage::Setting>> setting_of(Daybook& daybook) {
  auto setting = daybook.get<storage::Setting>(kept_as);
  if (!setting && setting.error().code == ErrorCode::not_found)
    return std::optional<storage::Setting>();
  if (!setting) return failure(setting);
  if (setting->deleted_at) return std::optional<storage::Setting>();
  return std::optional(*std::move(setting));
}

Result<std::pair<storage::Setting, KeptPlan>> needed_plan(Daybook& daybook, const Now& now) {
  auto setting = setting_of(daybook);
  if (!setting) return failure(setting);
  auto plan = *setting ? plan_kept((*setting)->value, now) : std::nullopt;
  if (plan) return std::pair(std::move(**setting), *std::move(plan));
  return failure(ErrorCode::not_found,
                 "DAY",
                 "no plan is kept whose bread is still to come: name the file of a day, and keep "
                 "its plan with --keep");
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
  auto before = daybook.get<storage::Setting>(kept_as);
  if (before && before->deleted_at) {
    const auto back = daybook.undo(storage::Kind::setting, kept_as, now.at);
    if (!back) return failure(back);
    before = daybook.get<storage::Setting>(kept_as);
  }
  if (!before && before.error().code != ErrorCode::not_found) return failure(before);
  if (before) setting.revision = before->revision;
  const json kept =
      object({{"schema", "barm.kept_day/1"}, {"day", text}, {"answer", to_json(answer)}});
  setting.value = kept.dump(-1, ' ', false, json::error_handler_t::replace);
  return daybook.save(std::move(setting), now.at);
}

Result<std::optional<KeptDay>> kept_day(Daybook& daybook,
                                        const Now& now,
                                        const std::function<bool()>& cancelled) {
  const auto setting = setting_of(daybook);
  if (!setting) return failure(setting);
  const auto plan = *setting ? plan_kept((*setting)->value, now) : std::nullopt;
  if (!plan) return std::optional<KeptDay>();
  auto anew = day_anew(daybook, plan->made, now, cancelled);
  if (!anew) return failure(anew);
  KeptDay out{plan->name, plan->bread, {}, {}};
  const bool made_again = *anew && !(*anew)->plan.empty();
  out.next = next_of(made_again ? (*anew)->steps : plan->steps, now);
  if (*anew) out.anew = std::move((*anew)->told);
  return std::optional(std::move(out));
}

Result<DayAgain> day_again(Daybook& daybook, const Now& now, DayRequest request) {
  const auto kept = needed_plan(daybook, now);
  if (!kept) return failure(kept);
  const auto& plan = kept->second;
  auto anew = day_anew(daybook, plan.made, now, request.cancelled);
  if (!anew) return failure(anew);
  DayAgain out{plan.made.text, plan.made.made_from, {}, {}};
  // The doughs that the plan was made with: by others it may not hold.
  request.draws = *anew || plan.draws == 0 ? DayRequest{}.draws : plan.draws;
  request.seed = DayRequest{}.seed;
  if (*anew) {
    out.made_from = (*anew)->made_from;
    out.told = (*anew)->told;
    if ((*anew)->plan.empty()) return out;
  }
  request.from = *anew ? (*anew)->plan : plan.made.plan;
  const auto named = [&](const std::string& words, const FilePlace&) {
    return known_bake(daybook, words, now);
  };
  const auto from = *anew ? std::optional((*anew)->begins) : std::nullopt;
  const auto file = parse_day(plan.made.text, "day", now.zone, named, from);
  if (!file) return failure(file);
  auto day = plan_day(*file, request);
  if (day) {
    out.day = *std::move(day);
  } else if (!*anew && day.error().where == "from") {
    out.told = {"You stay with it, though by what is known of its doughs it does not hold."};
  } else {
    return failure(day);
  }
  return out;
}

Result<storage::Setting> stay_with_kept(Daybook& daybook, const Now& now) {
  const auto kept = needed_plan(daybook, now);
  if (!kept) return failure(kept);
  storage::Setting setting = kept->first;
  const auto anew = day_anew(daybook, kept->second.made, now);
  if (!anew) return failure(anew);
  if (!*anew) return setting;
  if ((*anew)->made_from.empty())
    return failure(ErrorCode::cannot_be_met, "--stay", (*anew)->told.front());
  json value = json::parse(setting.value);
  value["answer"]["made_from"] = (*anew)->made_from;
  setting.value = value.dump(-1, ' ', false, json::error_handler_t::replace);
  return daybook.save(std::move(setting), now.at);
}

json to_json(const DayAgain& again) {
  return object({{"schema", "barm.day_again/1"},
                 {"told", again.told},
                 {"made_from", again.made_from},
                 {"day", again.day ? to_json(*again.day) : json()}});
}

json to_json(const std::optional<KeptDay>& day) {
  if (!day) return {};
  json next = json::array();
  for (const KeptStep& step : day->next) {
    next.push_back(object({{"bake", step.bake},
                           {"step", step.step},
                           {"begins", step.begins.text()},
                           {"ends", step.ends.text()}}));
  }
  return object(
      {{"name", day->name}, {"bread", day->bread.text()}, {"next", next}, {"anew", day->anew}});
}

}  // namespace barm::service

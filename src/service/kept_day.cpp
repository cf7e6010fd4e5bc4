#include "service/kept_day.h"

#include <nlohmann/json.hpp>

namespace barm::service {

namespace {

using nlohmann::json;

constexpr const char* kept_as = "day-plan";
constexpr std::size_t most_next = 4;
constexpr std::int64_t still_shown_s = 900;

std::string word(const json& object, const char* key) {
  const auto found = object.is_object() ? object.find(key) : object.end();
  return object.is_object() && found != object.end() && found->is_string()
             ? found->get<std::string>()
             : "";
}

/// As written by keep_day() or the page; nothing for anything else.
std::optional<KeptDay> day_kept(const std::string& value, const Now& now) {
  const json kept = json::parse(value, nullptr, false);
  if (!kept.is_object() || !kept.contains("answer")) return std::nullopt;
  const json& answer = kept["answer"];
  const auto bread = time::parse_instant(word(answer, "bread"));
  if (!bread || *bread < now.at || !answer.contains("steps") || !answer["steps"].is_array())
    return std::nullopt;
  KeptDay out{word(answer, "name"), *bread, {}};
  for (const json& step : answer["steps"]) {
    const auto begins = time::parse_instant(word(step, "begins"));
    const auto ends = time::parse_instant(word(step, "ends"));
    if (!begins || !ends || *ends + still_shown_s < now.at || out.next.size() == most_next)
      continue;
    if (step.value("begun", json()) == json(true)) continue;
    out.next.push_back({word(step, "bake"), word(step, "step"), *begins, *ends});
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

Result<std::optional<KeptDay>> kept_day(storage::Daybook& daybook, const Now& now) {
  const auto setting = daybook.get<storage::Setting>(kept_as);
  if (!setting && setting.error().code == ErrorCode::not_found) return std::optional<KeptDay>();
  if (!setting) return failure(setting);
  if (setting->deleted_at) return std::optional<KeptDay>();
  return day_kept(setting->value, now);
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
  return {{"name", day->name}, {"bread", day->bread.text()}, {"next", next}};
}

}  // namespace barm::service

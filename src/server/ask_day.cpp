#include "server/ask_day.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "server/problem.h"
#include "service/laid_day.h"

namespace barm::server {

namespace {

constexpr std::size_t most_bytes_of_day = 200'000;
constexpr std::size_t most_bakes = 20, most_steps = 100;

template <class T>
T of_day(Result<T> result) {
  if (result) return *std::move(result);
  Error error = result.error();
  std::string field = "/day";
  if (error.where == "from") field = "/from";
  if (error.where.starts_with("--")) field = "/" + error.where.substr(2);
  if (field != "/day") error.where.clear();  // the terminal's name of it
  throw Refused{problem(error, field)};
}

/// A day that was asked for, and all it rests on as a text.
struct AskedDay {
  service::DayFile file;
  std::string made_from;
};

/// The day of a text whose bakes are those of the daybook: no file is opened.
AskedDay asked_day(Fields& fields, const AskContext& context) {
  const std::string what = "needs the text of a day (docs/day.md)";
  const auto text = fields.needed(fields.text("day", what), "day", what);
  if (text.size() > most_bytes_of_day)
    refuse_field("/day", fmt::format("is longer than {} bytes", most_bytes_of_day));
  const auto named = [&](const std::string& name,
                         const formula::Place& place) -> Result<service::KnownBake> {
    auto bake = context.stored.named(name);
    if (bake) return bake;
    return failure(bake.error().code,
                   place.text(),
                   fmt::format("\"{}\": {}: write the id or the title of a bake of the daybook",
                               name,
                               bake.error().message));
  };
  AskedDay out{of_day(service::parse_day(text, "day", context.now.zone, named)), text};
  out.made_from += '\n' + out.file.begins.text();
  for (service::DayBake& each : out.file.bakes) {
    // What is told of a bake says its name and not its id.
    if (!each.bake.name.empty()) each.file = each.bake.name;
    out.made_from += '\n' + each.bread.text() + '\n' + each.made_from;
  }
  return out;
}

/// The plan of an answer, as it was answered.
std::vector<service::BakePlan> asked_plan(Fields& fields) {
  const std::string what = "the plan of an answer: a list of bake, way and begins";
  std::vector<service::BakePlan> out;
  const Json* list = fields.find("from");
  if (list == nullptr) return out;
  if (!list->is_array() || list->size() > most_bakes) refuse_field("/from", "needs " + what);
  for (std::size_t b = 0; b < list->size(); ++b) {
    Fields one((*list)[b], fmt::format("/from/{}", b));
    service::BakePlan bake;
    bake.bake = one.needed(one.text("bake", "its name"), "bake", "needs its name");
    bake.way = one.needed(one.text("way", "its way"), "way", "needs its way");
    for (const std::string& text : one.texts("begins", "a list of moments", most_steps)) {
      const auto at = time::parse_instant(text);
      if (!at) refuse_field(one.pointer("begins"), "needs moments such as 2026-11-28T06:00:00Z");
      bake.begins.push_back(*at);
    }
    one.check_all_taken();
    out.push_back(std::move(bake));
  }
  return out;
}

service::DayAnswer asked_answer(Fields& fields, const AskContext& context) {
  service::DayRequest request;
  request.draws = static_cast<int>(
      fields.whole("draws", 20, 2000, "doughs to plan with, from 20 to 2000").value_or(400));
  request.fresh_draws = static_cast<int>(
      fields.whole("fresh", 20, 20000, "others to count the chance on, from 20 to 20000")
          .value_or(2000));
  request.seed = static_cast<unsigned long long>(
      fields.whole("seed", 0, 1'000'000'000, "a whole number from 0 on").value_or(1));
  request.from = asked_plan(fields);
  request.move = of_day(service::asked_move(
      fields.text("move", "a step such as \"Mead loaf: divide\"").value_or(""),
      fields.text("to", "a day and time such as 2026-11-27T15:30").value_or("")));
  request.threads = context.threads;
  request.cancelled = context.watch.cancelled;
  request.progress = context.watch.progress;
  const AskedDay day = asked_day(fields, context);
  request.shelf = context.stored.shelf();
  const auto laid = context.days->of(
      fmt::format("{} {} {}\n", request.draws, request.fresh_draws, request.seed) + day.made_from,
      [&] { return of_day(service::lay_day(day.file, request)); });
  return of_day(service::day_answer(*laid, request));
}

Reply ask_the_day(Fields& fields, const AskContext& context) {
  return answered(service::to_json(asked_answer(fields, context)));
}

Reply ask_day_calendar(Fields& fields, const AskContext& context) {
  service::CalendarRequest request;
  request.alarm_before =
      fields.number("alarm_min", 0, 1440, "minutes from 0 to 1440").value_or(0) * minute;
  request.made_at = context.now.at;
  request.zone = context.now.zone;
  const service::DayAnswer day = asked_answer(fields, context);
  if (!day.planned) refuse_field("/day", "has no plan to write: ask /api/day to see why");
  Reply reply;
  reply.type = "text/calendar; charset=utf-8";
  reply.body = service::day_calendar(day, request);
  reply.with("Content-Disposition", "attachment; filename=\"day.ics\"");
  return reply;
}

}  // namespace

std::vector<Question> day_questions() {
  return {{.name = "day", .heavy = true, .as_a_job = true, .answer = ask_the_day},
          {.name = "day-calendar", .heavy = true, .answer = ask_day_calendar}};
}

}  // namespace barm::server

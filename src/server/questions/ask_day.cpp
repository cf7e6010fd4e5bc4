// The question about a day of several bakes.
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "generated/all_questions.h"
#include "server/door/problem.h"
#include "service/day/kept_day.h"
#include "service/day/laid_day.h"
#include "service/day/moves.h"

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

std::string text_of_day(Fields& fields) {
  const std::string what = "needs the text of a day (docs/day.md)";
  auto text = fields.needed(fields.text("day", what), "day", what);
  if (text.size() > most_bytes_of_day)
    refuse_field("/day", fmt::format("is longer than {} bytes", most_bytes_of_day));
  return text;
}

/// The day of a text whose bakes are those of the daybook: no file is opened.
AskedDay asked_day(const std::string& text,
                   std::optional<time::Instant> again,
                   const AskContext& context) {
  const auto named = [&](const std::string& name,
                         const FilePlace& place) -> Result<service::KnownBake> {
    auto bake = context.stored.named(name);
    if (bake) return bake;
    return failure(bake.error().code,
                   place,
                   fmt::format("\"{}\": {}: write the id or the title of a bake of the daybook",
                               name,
                               bake.error().message));
  };
  AskedDay out{of_day(service::parse_day(text, "day", context.now.zone, named, again)), text};
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

std::optional<time::Instant> asked_moment(Fields& fields, const char* name) {
  const std::string what = "a moment such as 2026-11-28T06:00:00Z";
  const auto text = fields.text(name, what);
  if (!text) return std::nullopt;
  const auto at = time::parse_instant(*text);
  if (!at) refuse_field(fields.pointer(name), "needs " + what);
  return at;
}

std::string by_ways(const std::vector<service::BakePlan>& plan) {
  std::string out = "\nby";
  for (const service::BakePlan& one : plan) out += '\n' + one.way;
  return out;
}

/// The day laid once by what it is made from: by the ways of a plan that is told, else by those
/// that are found.
LaidDays::Laid laid_once(const std::string& made_from,
                         const service::DayFile& file,
                         const service::DayRequest& request,
                         const AskContext& context) {
  const std::string from =
      fmt::format("{} {} {}\n", request.draws, request.fresh_draws, request.seed) + made_from;
  const auto lay = [&] { return of_day(service::lay_day(file, request)); };
  if (!request.from.empty()) return context.days->of(from + by_ways(request.from), lay);
  auto laid = context.days->of(from, lay);
  if (laid->planned.plan) {
    context.days->also(
        from + by_ways(service::told_plan(laid->file, laid->day, *laid->planned.plan)), laid);
  }
  return laid;
}

service::DayRequest heard_by(const AskContext& context) {
  service::DayRequest request;
  request.threads = context.threads;
  request.cancelled = context.watch.cancelled;
  request.progress = context.watch.progress;
  return request;
}

service::DayAnswer answer_of(const AskedDay& day,
                             service::DayRequest request,
                             const AskContext& context) {
  request.shelf = context.stored.shelf();
  const auto laid = laid_once(day.made_from, day.file, request, context);
  return of_day(service::day_answer(*laid, request));
}

service::DayAnswer asked_answer(Fields& fields, const AskContext& context) {
  service::DayRequest request = heard_by(context);
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
  const auto again = asked_moment(fields, "again");
  return answer_of(asked_day(text_of_day(fields), again, context), std::move(request), context);
}

Reply ask_day_again(Fields& fields, const AskContext& context) {
  service::MadePlan made{text_of_day(fields), "", asked_plan(fields)};
  const std::string what = "made_from of the answer that the plan is of";
  made.made_from = fields.needed(fields.text("made_from", what), "made_from", "needs " + what);
  if (made.plan.empty()) refuse_field("/from", "needs the plan of an answer");
  service::DayAgain out{made.text, made.made_from, {}, {}};
  if (auto anew = context.stored.anew(made, context.watch)) {
    out.made_from = anew->made_from;
    out.told = anew->told;
    service::DayRequest request = heard_by(context);
    request.from = std::move(anew->plan);
    if (!request.from.empty())
      out.day = answer_of(asked_day(made.text, anew->begins, context), std::move(request), context);
  }
  return answered(service::to_json(out));
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
          {.name = "day-again", .heavy = true, .as_a_job = true, .answer = ask_day_again},
          {.name = "day-calendar", .heavy = true, .answer = ask_day_calendar}};
}

}  // namespace barm::server

#include "server/ask_day.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "server/problem.h"
#include "service/day.h"

namespace barm::server {

namespace {

constexpr std::size_t most_bytes_of_day = 200'000;

template <class T>
T of_day(Result<T> result) {
  if (result) return *std::move(result);
  Error error = result.error();
  if (error.where != "--move" && error.where != "--to") throw Refused{problem(error, "/day")};
  const std::string field = "/" + error.where.substr(2);
  error.where.clear();  // the terminal's name of it
  throw Refused{problem(error, field)};
}

/// The day of a text whose bakes are those of the daybook: no file is opened.
service::DayFile asked_day(Fields& fields, const AskContext& context) {
  const std::string what = "wants the text of a day (docs/day.md)";
  const auto text = fields.needed(fields.text("day", what), "day", what);
  if (text.size() > most_bytes_of_day)
    refuse_field("/day", fmt::format("is longer than {} bytes", most_bytes_of_day));
  const auto named = [&](const std::string& name,
                         const formula::Place& place) -> Result<formula::Bake> {
    auto bake = context.stored.named(name);
    if (bake) return bake;
    return failure(bake.error().code,
                   place.text(),
                   fmt::format("\"{}\": {}: write the id or the title of a bake of the daybook",
                               name,
                               bake.error().message));
  };
  auto day = of_day(service::parse_day(text, "day", context.now.zone, named));
  // What is told of a bake says its name and not its id.
  for (service::DayBake& each : day.bakes) {
    if (!each.bake.name.empty()) each.file = each.bake.name;
  }
  return day;
}

Reply ask_the_day(Fields& fields, const AskContext& context) {
  service::DayRequest request;
  request.draws = static_cast<int>(
      fields.whole("draws", 20, 2000, "doughs to plan with, from 20 to 2000").value_or(400));
  request.fresh_draws = static_cast<int>(
      fields.whole("fresh", 20, 20000, "others to count the chance on, from 20 to 20000")
          .value_or(2000));
  request.seed = static_cast<unsigned long long>(
      fields.whole("seed", 0, 1'000'000'000, "a whole number from 0 on").value_or(1));
  request.move = of_day(service::asked_move(
      fields.text("move", "a step such as \"Mead loaf: divide\"").value_or(""),
      fields.text("to", "a day and time such as 2026-11-27T15:30").value_or("")));
  request.threads = context.threads;
  request.cancelled = context.watch.cancelled;
  request.progress = context.watch.progress;
  const service::DayFile day = asked_day(fields, context);
  return answered(service::to_json(of_day(service::plan_day(day, request))));
}

}  // namespace

std::vector<Question> day_questions() {
  return {{.name = "day", .heavy = true, .as_a_job = true, .answer = ask_the_day}};
}

}  // namespace barm::server

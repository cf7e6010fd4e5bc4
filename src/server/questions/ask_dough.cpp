// The questions about a dough that somebody makes: what was read of it, what to do with it and
// when.
#include <algorithm>
#include <memory>

#include "generated/all_questions.h"
#include "server/questions/asked.h"
#include "service/bake/calendar.h"
#include "service/bake/jar.h"
#include "service/bake/read.h"
#include "service/bake/rescue.h"
#include "service/bake/when.h"

namespace barm::server {

namespace {

std::optional<Length> start_mark(Fields& fields) {
  const auto mark = fields.number("start_mark_mm", 1, 1000, "a height such as 40");
  return mark ? std::optional(*mark * millimetre) : std::nullopt;
}

constexpr const char* some_readings = "a list of readings such as \"6.5h 52 mm 23.5 C\"";
constexpr std::size_t most_readings = 500;

// The dough with what is typed of it; without any with what its daybook has been told.
service::Batch what_was_read(Fields& fields, const Asked& asked) {
  const auto mark = start_mark(fields);
  if (fields.find("readings") == nullptr) return asked.with_kept_readings(fields, mark);
  return asked.with_typed_readings(fields.texts("readings", some_readings, most_readings), mark);
}

Reply ask_rescue(Fields& fields, const AskContext& context) {
  service::RescueRequest request;
  const std::string when = "hours after mixing such as 30h, or a local time such as 06:00";
  request.now = fields.needed(fields.text("now", when), "now", "needs " + when);
  request.by = fields.text("by", when).value_or("");
  request.not_before = fields.text("not_before", when).value_or("");
  request.risen = fields.number("risen", 0.8, 6, "how far it has risen, such as 1.2");
  if (const Json* places = fields.find("places_C")) {
    for (const Json& place : *places) {
      if (!place.is_number() || place < -5 || place > 60)
        refuse_field("/places_C", "needs temperatures such as 28");
      request.places.push_back(Temperature::from_celsius(place.get<double>()));
    }
  }
  const Asked asked(fields, context);
  const service::Batch batch = what_was_read(fields, asked);
  std::shared_ptr<const estimation::Learned> learned;
  if (!request.risen) {
    learned = asked.learned(batch);
    request.learned = learned.get();
  }
  request.temperature = asked.options.temperature;
  request.draws = asked.options.draws;
  request.seed = asked.options.seed;
  request.threads = asked.options.threads;
  request.cancelled = context.watch.cancelled;
  return asked.reply(service::rescue(batch, request));
}

Reply ask_read(Fields& fields, const AskContext& context) {
  const Asked asked(fields, context);
  const service::Batch batch = what_was_read(fields, asked);
  if (batch.readings.rows.empty() && batch.readings.left_out.empty())
    (void)fields.texts("readings", some_readings, most_readings);  // says what it needs
  return asked.reply(Result<service::ReadAnswer>(asked.read(batch)));
}

Reply ask_jar(Fields& fields, const AskContext& context) {
  const Asked asked(fields, context);
  service::JarRequest request;
  if (const auto wide = fields.number("diameter_mm", 10, 500, "millimetres inside such as 70"))
    request.diameter = *wide * millimetre;
  if (const auto high = fields.number("height_mm", 10, 1000, "millimetres inside such as 140"))
    request.height = *high * millimetre;
  if (const auto grams = fields.number("dough_g", 1, 1e5, "grams in the jar such as 60"))
    request.dough = *grams * gram;
  if (const auto room = fields.number("room_C", 0, 45, "where the jar stands, such as 22"))
    request.temperature = Temperature::from_celsius(*room);
  return asked.reply(service::jar(asked.batch.bake, request, asked.options));
}

Reply ask_when(Fields& fields, const AskContext& context) {
  const std::string moment = "a local time such as 2026-11-29T08:30";
  service::WhenRequest request;
  request.oven = fields.needed(fields.text("oven", moment), "oven", "needs " + moment);
  request.now = context.now;
  const Asked asked(fields, context);
  return asked.reply(service::when(asked.batch.bake, request, asked.options));
}

// A dough that is under way and was read goes by its readings, as on every screen.
Reply ask_calendar(Fields& fields, const AskContext& context) {
  const Asked asked(fields, context);
  service::CalendarRequest request;
  request.alarm_before =
      fields.number("alarm_min", 0, 1440, "minutes from 0 to 1440").value_or(0) * minute;
  request.made_at = context.now.at;
  request.zone = context.now.zone;
  auto foreseen = asked.foreseen();
  if (foreseen.now) {
    const service::Batch batch = asked.with_kept_readings(fields);
    if (!batch.readings.rows.empty()) service::tell_as_read(foreseen, asked.read(batch));
  }
  const auto calendar = service::calendar(foreseen, request);
  Reply reply;
  reply.type = "text/calendar; charset=utf-8";
  reply.body = got(calendar);
  reply.with("Content-Disposition", "attachment; filename=\"bake.ics\"");
  return reply;
}

}  // namespace

std::vector<Question> dough_questions() {
  return {
      {.name = "read",
       .heavy = true,
       .as_a_job = true,
       .follows_from_itself = true,
       .answer = ask_read},
      {.name = "rescue",
       .heavy = true,
       .as_a_job = true,
       .follows_from_itself = true,
       .answer = ask_rescue},
      {.name = "jar", .heavy = true, .follows_from_itself = true, .answer = ask_jar},
      {.name = "calendar", .heavy = true, .answer = ask_calendar},
      {.name = "when", .heavy = true, .answer = ask_when},
  };
}

}  // namespace barm::server

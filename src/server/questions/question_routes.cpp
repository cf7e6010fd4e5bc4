#include "server/questions/question_routes.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string>
#include <utility>
#include <vector>

#include "server/door/problem.h"
#include "server/questions/asked.h"
#include "server/questions/asked_now.h"
#include "server/questions/fields.h"

namespace barm::server {

namespace {

const std::vector<std::string> as_json = {"application/json"};

Reply text_reply(std::string body, int status = 200) {
  Reply reply;
  reply.status = status;
  reply.body = std::move(body);
  return reply;
}

// Whether it asks about a bake or a culture of the daybook, which may be another one next time.
bool names_a_record(const Json& body) {
  return body.contains("bake_id") || body.contains("culture_id");
}

// "foresee, read or reach": what may be asked as long work.
std::string long_work() {
  std::vector<std::string> names;
  for (const Question& one : questions()) {
    if (one.as_a_job) names.push_back(one.name);
  }
  const std::string last = names.back();
  names.pop_back();
  return fmt::format("{} or {}", fmt::join(names, ", "), last);
}

}  // namespace

void QuestionRoutes::add_to(Router& router) {
  add_questions(router);
  add_jobs(router);
}

void QuestionRoutes::add_questions(Router& router) {
  for (const Question& one : questions()) {
    router.add({.method = "POST",
                .path = "/api/" + one.name,
                .handler = [this, &one](const Request& request,
                                        const Parts&) { return ask_now(one, request); },
                .takes = as_json,
                .heavy = one.heavy});
  }
  const auto get = [&](const std::string& path, Handler handler) {
    router.add({.method = "GET", .path = path, .handler = std::move(handler)});
  };
  router.add({.method = "GET",
              .path = "/api/bakes/{id}/calendar.ics",
              .handler = [this](const Request& request,
                                const Parts& parts) { return calendar_link(request, parts); },
              .heavy = true});
  get("/api/larder",
      [](const Request& request, const Parts&) { return larder_reply(request.asked("words")); });
  get("/api/larder/{key}",
      [](const Request&, const Parts& parts) { return ingredient_reply(parts.at("key")); });
  get("/api/sources",
      [](const Request& request, const Parts&) { return sources_reply(request.asked("words")); });
  get("/api/examples", [](const Request&, const Parts&) { return examples_reply(); });
}

Reply QuestionRoutes::ask_now(const Question& one, const Request& request) {
  const Json body = parse_json(request.body);
  if (!one.heavy) return ask(one, body, context({}, asked_now(request), dough_of(body, request)));
  const auto work = [&] {
    const Turns::Turn turn(turns_, request.gone);
    return ask(one, body, context({request.gone, {}}, asked_now(request), dough_of(body, request)));
  };
  if (!one.follows_from_itself || names_a_record(body)) return work();
  return answers_.to(
      one.name + request.header("barm-zone") + house_of(asked_now(request)) + request.body, work);
}

std::string QuestionRoutes::house_of(const service::Now& now) {
  std::string out;
  for (const storage::Equipment& one : stored_(now).house())
    out += fmt::format("{} {}\n", one.id, one.revision);
  return out;
}

// A link asks the same as the page does.
Reply QuestionRoutes::calendar_link(const Request& request, const Parts& parts) {
  Json body = {{"bake_id", parts.at("id")}};
  const std::string alarm = request.asked("alarm_min");
  if (!alarm.empty()) {
    const Json number = Json::parse(alarm, nullptr, false);
    body["alarm_min"] = number.is_number() ? number : Json(alarm);
  }
  const Turns::Turn turn(turns_, request.gone);
  return ask(*question("calendar"),
             body,
             context({request.gone, {}}, asked_now(request), dough_of(body, request)));
}

std::optional<forecast::Timeline> QuestionRoutes::as_read(const std::string& bake_id,
                                                          const Request& request) {
  const Json body = {{"bake_id", bake_id}};
  try {
    Fields fields(body);
    const Asked asked(fields, context({}, asked_now(request), dough_of(body, request)));
    return asked.read(asked.with_kept_readings(fields)).after.timeline;
  } catch (const Refused&) {
    return std::nullopt;
  }
}

// What a question about a dough says beside the dough is left out.
std::string QuestionRoutes::dough_of(Json body, const Request& request) {
  if (!body.is_object() || !body.contains("bake_id")) return "";
  for (const char* other : {"alarm_min", "now", "by", "not_before", "risen", "places_C"})
    body.erase(other);
  if (body.value("unsent", Json()) == Json::array()) body.erase("unsent");
  return fmt::format("{} {} {}", last_change_(), asked_zone(request), body.dump());
}

AskContext QuestionRoutes::context(Watch watch, const service::Now& now, std::string dough) {
  AskContext out;
  out.watch = std::move(watch);
  out.now = now;
  out.stored = stored_(now);
  out.days = &days_;
  out.doughs = &doughs_;
  out.dough = std::move(dough);
  return out;
}

void QuestionRoutes::add_jobs(Router& router) {
  router.add(
      {.method = "POST",
       .path = "/api/jobs",
       .handler = [this](const Request& request, const Parts&) { return start_job(request); },
       .takes = as_json});
  router.add(
      {.method = "GET",
       .path = "/api/jobs/{job}",
       .handler = [this](const Request&,
                         const Parts& parts) { return text_reply(jobs_.look(parts.at("job"))); },
       .kept = false});
  router.add({.method = "DELETE",
              .path = "/api/jobs/{job}",
              .handler = [this](const Request&, const Parts& parts) {
                return text_reply(jobs_.stop(parts.at("job")));
              }});
}

Reply QuestionRoutes::start_job(const Request& request) {
  const Json body = parse_json(request.body);
  Fields fields(body);
  const std::string what = long_work();
  const auto name = fields.needed(fields.text("ask", what), "ask", "needs " + what);
  const Question* one = question(name);
  if (one == nullptr || !one->as_a_job) refuse_field("/ask", "needs " + what);
  const Json* with = fields.find("with");
  if (with == nullptr) refuse_field("/with", "needs what the route of that name takes");
  fields.check_all_taken();
  return text_reply(
      jobs_.start(
          name,
          [this, one, asked = *with, now = asked_now(request), dough = dough_of(*with, request)](
              const Watch& watch) {
            const Turns::Turn turn(turns_, watch.cancelled);
            return ask(*one, asked, context(watch, now, dough));
          }),
      202);
}

}  // namespace barm::server

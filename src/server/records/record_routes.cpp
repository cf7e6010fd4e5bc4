#include "server/records/record_routes.h"

#include <nlohmann/json.hpp>
#include <optional>

#include "server/door/problem.h"
#include "server/questions/asked_now.h"
#include "server/questions/fields.h"
#include "server/questions/internal/whole_asked.h"
#include "server/records/internal/from_daybook.h"
#include "service/daybook/daybook.h"
#include "storage/record_json.h"

namespace barm::server {

using nlohmann::json;
using storage::Kind;

namespace {

constexpr std::size_t most_of_photo = 25'000'000;
constexpr std::size_t usual_limit = 200;
constexpr std::size_t most_limit = 10000;  // as many looks as a logger of a night writes

std::optional<std::string> query_or_nothing(const Request& request, const std::string& name) {
  const auto found = request.query.find(name);
  return found == request.query.end() ? std::nullopt : std::optional(found->second);
}

/// The place of an error in a record as a JSON pointer: storage names the field.
std::string field_of_record(const Error& error) {
  if (error.where.starts_with("bake:")) return "/toml";
  const bool is_key = !error.where.empty() && error.where.find_first_of(" :/") == std::string::npos;
  return is_key ? pointer_step(error.where) : "";
}

// Why it could not be saved, in a word for programs.
void add_saving(storage::Daybook& daybook, json& document) {
  if (const auto saving = daybook.saving()) document["saving"] = storage::name(*saving);
}

bool is_of_before(storage::Daybook& daybook, Kind kind, const json& sent, const Error& error) {
  if (error.code != ErrorCode::conflict && error.code != ErrorCode::not_found) return false;
  if (!sent.contains("id") || !sent["id"].is_string()) return false;
  if (!sent.contains("revision") || !sent["revision"].is_number_integer()) return false;
  const auto found = daybook.is_of_before(
      kind, sent["id"].get<std::string>(), sent["revision"].get<std::int64_t>());
  return found.value_or(false);
}

Reply refuse_change(storage::Daybook& daybook, const Error& error) {
  json document = problem_document(error, "");
  if (error.code == ErrorCode::unavailable) add_saving(daybook, document);
  return problem_reply(document);
}

}  // namespace

json restored_document(std::int64_t epoch) {
  json out = problem_document(Refusal::restored,
                              "the daybook was put back to an earlier copy since this was read; "
                              "look at it as it is now, and send what is still wanted again");
  out["epoch"] = epoch;
  return out;
}

void RecordRoutes::add_to(Router& router) {
  for (const Kind kind : storage::all_kinds) add_kind(router, kind);
  add_photos(router);
}

void RecordRoutes::add_kind(Router& router, Kind kind) {
  const std::string all = "/api/" + service::plural(kind);
  const std::string one = all + "/{id}";
  const std::vector<std::string> takes{"application/json"};
  router.add(
      {.method = "GET", .path = all, .handler = [this, kind](const Request& request, const Parts&) {
         return list(kind, request);
       }});
  router.add(
      {.method = "GET", .path = one, .handler = [this, kind](const Request&, const Parts& parts) {
         return answered(from_daybook(service::get_record(*open_(), kind, parts.at("id"))));
       }});
  router.add({.method = "PUT",
              .path = one,
              .handler =
                  [this, kind](const Request& request, const Parts& parts) {
                    return save(kind, request, parts.at("id"), 200);
                  },
              .takes = takes});
  router.add({.method = "DELETE",
              .path = one,
              .handler = [this, kind](const Request& request, const Parts& parts) {
                return remove(kind, request, parts.at("id"));
              }});
  router.add({.method = "POST",
              .path = one + "/undo",
              .handler = [this, kind](const Request&, const Parts& parts) {
                const auto lease = open_();
                return changed(*lease,
                               lease->undo(kind, parts.at("id"), service::machine_now().at));
              }});
  if (kind == Kind::photo) return;  // a picture comes with it
  router.add({.method = "POST",
              .path = all,
              .handler = [this, kind](const Request& request,
                                      const Parts&) { return save(kind, request, "", 201); },
              .takes = takes});
}

Reply RecordRoutes::list(Kind kind, const Request& request) const {
  storage::Query asked;
  asked.owner = request.asked("owner");
  asked.text = request.asked("text");
  asked.state = request.asked("state");
  asked.limit = static_cast<std::size_t>(whole_asked(request, "limit", 1, most_limit, usual_limit));
  asked.offset = static_cast<std::size_t>(whole_asked(request, "offset", 0, 1'000'000'000, 0));
  return answered(from_daybook(service::list_records(*open_(), kind, asked)));
}

Reply RecordRoutes::save(Kind kind,
                         const Request& request,
                         const std::string& id,
                         int status) const {
  // Read with care for double keys and depth; then as storage wants it.
  json record = parse_json(request.body);
  if (!record.is_object()) refuse_field("", "a JSON object is wanted here");
  if (!id.empty()) {
    if (record.contains("id") && record["id"] != id)
      refuse_field("/id", "is not the one in the address");
    record["id"] = id;
  }
  const auto lease = open_();
  const auto saved = service::save_record(*lease, kind, record, asked_now(request));
  if (!saved) return refuse(*lease, kind, record, saved.error());
  written_();
  return answered(*saved, status);
}

// A conflict brings the record as it stands now.
Reply RecordRoutes::refuse(storage::Daybook& daybook,
                           Kind kind,
                           const json& sent,
                           const Error& error) const {
  json document = problem_document(error, field_of_record(error));
  if (is_of_before(daybook, kind, sent, error)) document = restored_document(epoch_);
  if (error.code == ErrorCode::unavailable) add_saving(daybook, document);
  const int status = document.at("status").get<int>();
  if (status == http_status(ErrorCode::conflict) && sent.contains("id") && sent["id"].is_string()) {
    const auto current = service::get_record(daybook, kind, sent["id"].get<std::string>());
    if (current) document["current"] = *current;
  }
  return problem_reply(document);
}

Reply RecordRoutes::remove(Kind kind, const Request& request, const std::string& id) const {
  const std::int64_t revision = whole_asked(request, "revision", 1, most_number, 0);
  const auto lease = open_();
  const auto removed = lease->remove(kind, id, revision, service::machine_now().at);
  if (!removed)
    return refuse(*lease, kind, json{{"id", id}, {"revision", revision}}, removed.error());
  written_();
  return answered(storage::to_json(*removed));
}

Reply RecordRoutes::changed(storage::Daybook& daybook,
                            const Result<storage::Change>& change) const {
  if (!change) throw Refused{refuse_change(daybook, change.error())};
  written_();
  return answered(storage::to_json(*change));
}

void RecordRoutes::add_photos(Router& router) {
  router.add(
      {.method = "POST",
       .path = "/api/photos",
       .handler = [this](const Request& request, const Parts&) { return add_photo(request); },
       .takes = {"image/jpeg", "image/png"},
       .most_bytes = most_of_photo});
  const auto add = [&](const char* what, auto bytes) {
    router.add({.method = "GET",
                .path = std::string("/api/photos/{id}/") + what,
                .handler = [this, bytes](const Request&, const Parts& parts) {
                  Reply reply;
                  reply.type = "image/jpeg";
                  reply.body = from_daybook(((*open_()).*bytes)(parts.at("id")));
                  // A picture never changes under its id.
                  reply.with("Cache-Control", "private, max-age=31536000, immutable");
                  return reply;
                }});
  };
  add("picture", &storage::Daybook::picture);
  add("thumbnail", &storage::Daybook::thumbnail);
}

Reply RecordRoutes::add_photo(const Request& request) const {
  const service::Now now = asked_now(request);
  storage::Photo photo;
  photo.id = request.asked("id");
  photo.bake = query_or_nothing(request, "bake");
  photo.loaf = query_or_nothing(request, "loaf");
  photo.culture = query_or_nothing(request, "culture");
  photo.caption = request.asked("caption");
  photo.taken_at = now.at;
  if (const auto taken = query_or_nothing(request, "taken_at")) {
    const auto moment = time::parse_instant(*taken);
    if (!moment)
      throw Refused{
          problem(Refusal::bad_request, "taken_at needs a moment such as 2026-11-28T06:00:00Z")};
    photo.taken_at = *moment;
  }
  const auto lease = open_();
  const auto kept = lease->add_photo(std::move(photo), request.body, now.at);
  if (!kept) throw Refused{refuse_change(*lease, kept.error())};
  written_();
  return answered(storage::to_json(*kept), 201);
}

}  // namespace barm::server

#include "server/diary.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <chrono>
#include <nlohmann/json.hpp>

#include "base/complain.h"
#include "server/asked_now.h"
#include "server/bakes_of_daybook.h"
#include "server/internal/from_daybook.h"
#include "server/problem.h"
#include "server/upkeep.h"
#include "service/daybook.h"
#include "service/daybook_view.h"
#include "service/demo.h"
#include "storage/pool.h"
#include "storage/record_json.h"

namespace barm::server {

using nlohmann::json;
using storage::Kind;

namespace {

constexpr std::size_t most_of_photo = 25'000'000;
constexpr std::size_t most_changes = 1000;
constexpr std::size_t usual_limit = 200;
constexpr std::size_t most_limit = 10000;  // as many looks as a logger of a night writes
constexpr std::int64_t most_number =
    (std::int64_t{1} << 53U) - 1;  // a page's numbers are exact so far

constexpr std::array kinds{Kind::bake,
                           Kind::culture,
                           Kind::feeding,
                           Kind::bottle,
                           Kind::reading,
                           Kind::mark,
                           Kind::photo,
                           Kind::loaf,
                           Kind::scale,
                           Kind::remark,
                           Kind::setting,
                           Kind::test_bake,
                           Kind::test_member};

std::optional<std::string> query_or_nothing(const Request& request, const std::string& name) {
  const auto found = request.query.find(name);
  return found == request.query.end() ? std::nullopt : std::optional(found->second);
}

std::int64_t whole(const Request& request,
                   const std::string& name,
                   std::int64_t least,
                   std::int64_t most,
                   std::int64_t usual) {
  const std::string text = request.asked(name);
  if (text.empty()) return usual;
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || value < least || value > most) {
    throw Refused{problem(Refusal::bad_request,
                          fmt::format("{} wants a whole number from {} to {}", name, least, most))};
  }
  return value;
}

/// The place of an error in a record as a JSON pointer: storage names the field.
std::string field_of(const Error& error) {
  if (error.where.starts_with("bake:")) return "/toml";
  const bool is_key = !error.where.empty() && error.where.find_first_of(" :/") == std::string::npos;
  return is_key ? pointer_step(error.where) : "";
}

// What cannot be written is said, and keeps nobody from reading what is there.
template <class T>
Result<bool> told(const Result<T>& result) {
  if (result) return true;
  if (result.error().code != ErrorCode::unavailable) return failure(result);
  complain(fmt::format("barm: {}", result.error().text()));
  return true;
}

class RealDiary final : public Diary {
 public:
  explicit RealDiary(const std::string& path)
      : there_(!path.empty()),
        pool_(path, {.create = true, .or_read_only = true}),
        bakes_([this] { return daybook(); }, there_) {}

  /// Opens it, and from now on it stays open, so that nobody puts another in its place.
  Result<bool> begin() {
    if (!there_) return true;
    {
      const auto lease = pool_.lease();
      if (!lease) return failure(lease);
      const auto epoch = (*lease)->epoch();
      if (!epoch) return failure(epoch);
      epoch_ = *epoch;
      const auto saves = told((*lease)->try_saving());
      if (!saves) return saves;
    }
    upkeep_.emplace(pool_, complain, Clocks::of_the_machine());
    return true;
  }

  bool is_there() const override { return there_; }

  void add_routes(Router& router, Turns& turns, std::function<void()> written_) override {
    written_here_ = std::move(written_);
    for (const Kind kind : kinds) add_kind(router, kind);
    add_photos(router);
    add_others(router, turns);
  }

  ChangesSince changes_since(std::int64_t number) override {
    if (!there_) return {};
    const auto lease = daybook();
    const auto found = from_daybook(lease->changes_after(number, most_changes));
    ChangesSince out;
    out.epoch = epoch_;
    out.last = found.last;
    out.complete =
        found.complete && (found.changes.empty() || found.changes.back().number == found.last);
    for (const storage::Change& change : found.changes)
      out.changes.push_back({change.number, written(storage::to_json(change))});
    return out;
  }

  storage::Saving saving() const override { return pool_.saving(); }

  void look_whether_it_saves() override {
    using Clock = std::chrono::steady_clock;
    const bool is_time = Clock::now() - last_look_ > std::chrono::seconds(2);
    if (!there_ || !is_time || saving() == storage::Saving::goes_on) return;
    last_look_ = Clock::now();
    const auto lease = pool_.lease();
    if (lease && (*lease)->may_write()) (void)(*lease)->try_saving();
  }

  std::int64_t epoch() const override { return epoch_; }

  std::int64_t last_change() override {
    return there_ ? from_daybook(daybook()->last_change()) : 0;
  }

  StoredBakes stored_bakes(const service::Now& now) override { return bakes_.of(now); }

 private:
  storage::Pool::Lease daybook() {
    if (!there_) {
      throw Refused{problem(Refusal::no_route,
                            "no daybook is open: start the server with barm open --daybook FILE")};
    }
    return from_daybook(pool_.lease());
  }

  // --- every kind alike ---

  void add_kind(Router& router, Kind kind) {
    const std::string all = "/api/" + service::plural(kind);
    const std::string one = all + "/{id}";
    const std::vector<std::string> takes{"application/json"};
    router.add({.method = "GET",
                .path = all,
                .handler = [this, kind](const Request& request, const Parts&) {
                  return list(kind, request);
                }});
    router.add(
        {.method = "GET", .path = one, .handler = [this, kind](const Request&, const Parts& parts) {
           return answered(from_daybook(service::get_record(*daybook(), kind, parts.at("id"))));
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
                  const auto lease = daybook();
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

  Reply list(Kind kind, const Request& request) {
    storage::Query asked;
    asked.owner = request.asked("owner");
    asked.text = request.asked("text");
    asked.state = request.asked("state");
    asked.limit = static_cast<std::size_t>(whole(request, "limit", 1, most_limit, usual_limit));
    asked.offset = static_cast<std::size_t>(whole(request, "offset", 0, 1'000'000'000, 0));
    return answered(from_daybook(service::list_records(*daybook(), kind, asked)));
  }

  Reply save(Kind kind, const Request& request, const std::string& id, int status) {
    // Read with care for double keys and depth; then as storage wants it.
    json record = parse_json(request.body);
    if (!record.is_object()) refuse_field("", "a JSON object is wanted here");
    if (!id.empty()) {
      if (record.contains("id") && record["id"] != id)
        refuse_field("/id", "is not the one in the address");
      record["id"] = id;
    }
    const auto lease = daybook();
    const auto saved = service::save_record(*lease, kind, record, asked_now(request));
    if (!saved) return refuse(*lease, kind, record, saved.error());
    written_here_();
    return answered(*saved, status);
  }

  // A conflict brings the record as it stands now.
  Reply refuse(storage::Daybook& daybook, Kind kind, const json& sent, const Error& error) const {
    json document = problem_document(error, field_of(error));
    if (is_of_before(daybook, kind, sent, error)) document = restored_document();
    if (error.code == ErrorCode::unavailable) add_saving(daybook, document);
    const int status = document.at("status").get<int>();
    if (status == http_status(ErrorCode::conflict) && sent.contains("id") &&
        sent["id"].is_string()) {
      const auto current = service::get_record(daybook, kind, sent["id"].get<std::string>());
      if (current) document["current"] = *current;
    }
    return problem_reply(document);
  }

  static Reply refuse(storage::Daybook& daybook, const Error& error) {
    json document = problem_document(error, "");
    if (error.code == ErrorCode::unavailable) add_saving(daybook, document);
    return problem_reply(document);
  }

  // Why it could not be saved, in a word for programs.
  static void add_saving(storage::Daybook& daybook, json& document) {
    if (const auto saving = daybook.saving()) document["saving"] = storage::name(*saving);
  }

  static bool is_of_before(storage::Daybook& daybook,
                           Kind kind,
                           const json& sent,
                           const Error& error) {
    if (error.code != ErrorCode::conflict && error.code != ErrorCode::not_found) return false;
    if (!sent.contains("id") || !sent["id"].is_string()) return false;
    if (!sent.contains("revision") || !sent["revision"].is_number_integer()) return false;
    const auto found = daybook.is_of_before(
        kind, sent["id"].get<std::string>(), sent["revision"].get<std::int64_t>());
    return found.value_or(false);
  }

  json restored_document() const {
    json out = problem_document(Refusal::restored,
                                "the daybook was put back to an earlier copy since this was read; "
                                "look at it as it is now, and send what is still wanted again");
    out["epoch"] = epoch_;
    return out;
  }

  Reply remove(Kind kind, const Request& request, const std::string& id) {
    const std::int64_t revision = whole(request, "revision", 1, most_number, 0);
    const auto lease = daybook();
    const auto removed = lease->remove(kind, id, revision, service::machine_now().at);
    if (!removed)
      return refuse(*lease, kind, json{{"id", id}, {"revision", revision}}, removed.error());
    written_here_();
    return answered(storage::to_json(*removed));
  }

  Reply changed(storage::Daybook& daybook, const Result<storage::Change>& change) {
    if (!change) throw Refused{refuse(daybook, change.error())};
    written_here_();
    return answered(storage::to_json(*change));
  }

  // --- photos ---

  void add_photos(Router& router) {
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
                    reply.body = from_daybook(((*daybook()).*bytes)(parts.at("id")));
                    // A picture never changes under its id.
                    reply.with("Cache-Control", "private, max-age=31536000, immutable");
                    return reply;
                  }});
    };
    add("picture", &storage::Daybook::picture);
    add("thumbnail", &storage::Daybook::thumbnail);
  }

  Reply add_photo(const Request& request) {
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
            problem(Refusal::bad_request, "taken_at wants a moment such as 2026-11-28T06:00:00Z")};
      photo.taken_at = *moment;
    }
    const auto lease = daybook();
    const auto kept = lease->add_photo(std::move(photo), request.body, now.at);
    if (!kept) throw Refused{refuse(*lease, kept.error())};
    written_here_();
    return answered(storage::to_json(*kept), 201);
  }

  // --- the rest ---

  void add_others(Router& router, Turns& turns) {
    const auto get = [&](const std::string& path, auto handler) {
      router.add({.method = "GET", .path = path, .handler = handler});
    };
    const auto heavy = [&](const std::string& path, auto handler) {
      router.add({.method = "GET", .path = path, .handler = handler, .heavy = true});
    };
    heavy("/api/today", [this, &turns](const Request& request, const Parts&) {
      const Turns::Turn turn(turns, request.gone);
      const auto lease = daybook();
      return answered(
          service::to_json(from_daybook(service::today(*lease, asked_now(request), request.gone))));
    });
    router.add({.method = "POST",
                .path = "/api/demo",
                .handler = [this](const Request& request, const Parts&) {
                  const auto lease = daybook();
                  return looked_round("saved", service::look_round(*lease, asked_now(request)));
                }});
    router.add(
        {.method = "DELETE", .path = "/api/demo", .handler = [this](const Request&, const Parts&) {
           const auto lease = daybook();
           return looked_round("removed", service::end_look_round(*lease, service::machine_now()));
         }});
    get("/api/trash", [this](const Request&, const Parts&) {
      json out = {{"schema", "barm.trash/1"}, {"trash", json::array()}};
      for (const storage::Deleted& one : from_daybook(daybook()->trash()))
        out["trash"].push_back(storage::to_json(one));
      return answered(out);
    });
    get("/api/changes", [this](const Request& request, const Parts&) { return changes(request); });
    get("/api/bakes/{id}/versions", [this](const Request&, const Parts& parts) {
      json out = {{"schema", "barm.versions/1"}, {"versions", json::array()}};
      for (const storage::BakeVersion& one : from_daybook(daybook()->history(parts.at("id"))))
        out["versions"].push_back(storage::to_json(one));
      return answered(out);
    });
  }

  Reply looked_round(const char* what, const Result<int>& records) {
    const int number = from_daybook(records);
    written_here_();
    return answered(json{{"schema", "barm.demo/1"}, {what, number}});
  }

  Reply changes(const Request& request) {
    const std::int64_t since = whole(request, "since", 0, most_number, 0);
    const auto found = from_daybook(daybook()->changes_after(since, most_changes));
    if (found.of_before || since > found.last) throw Refused{problem_reply(restored_document())};
    json out = {{"schema", "barm.changes/1"},
                {"epoch", epoch_},
                {"last", found.last},
                {"complete", found.complete},
                {"changes", json::array()}};
    for (const storage::Change& one : found.changes)
      out["changes"].push_back(storage::to_json(one));
    return answered(out);
  }

  bool there_;
  storage::Pool pool_;
  std::int64_t epoch_ = 0;
  std::chrono::steady_clock::time_point last_look_;  ///< of the one thread that looks
  BakesOfDaybook bakes_;
  std::optional<Upkeep> upkeep_;  // after the pool, which it uses until it ends
  std::function<void()> written_here_;
};

}  // namespace

Result<std::unique_ptr<Diary>> Diary::open(const std::string& path) {
  auto diary = std::make_unique<RealDiary>(path);
  const auto begun = diary->begin();
  if (!begun) return failure(begun);
  return diary;
}

}  // namespace barm::server

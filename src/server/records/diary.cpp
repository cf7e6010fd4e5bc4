#include "server/records/diary.h"

#include <fmt/format.h>

#include <chrono>
#include <nlohmann/json.hpp>

#include "base/complain.h"
#include "server/door/problem.h"
#include "server/questions/asked_now.h"
#include "server/questions/internal/whole_asked.h"
#include "server/records/bakes_of_daybook.h"
#include "server/records/internal/from_daybook.h"
#include "server/records/record_routes.h"
#include "server/records/upkeep.h"
#include "service/daybook/daybook.h"
#include "service/daybook/demo.h"
#include "service/daybook/view.h"
#include "storage/pool.h"
#include "storage/record_json.h"

namespace barm::server {

using nlohmann::json;

namespace {

constexpr std::size_t most_changes = 1000;

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

  void add_routes(Router& router,
                  Turns& turns,
                  std::function<void()> written_,
                  AsRead as_read) override {
    written_here_ = std::move(written_);
    as_read_ = std::move(as_read);
    records_.emplace([this] { return daybook(); }, epoch_, written_here_);
    records_->add_to(router);
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
      const service::Now now = asked_now(request);
      const auto as_read = [&](const std::string& bake_id) { return as_read_(bake_id, request); };
      return answered(
          service::to_json(from_daybook(service::today(*lease, now, request.gone, as_read))));
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
    const std::int64_t since = whole_asked(request, "since", 0, most_number, 0);
    const auto found = from_daybook(daybook()->changes_after(since, most_changes));
    if (found.of_before || since > found.last)
      throw Refused{problem_reply(restored_document(epoch_))};
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
  std::optional<RecordRoutes> records_;
  std::optional<Upkeep> upkeep_;  // after the pool, which it uses until it ends
  std::function<void()> written_here_;
  AsRead as_read_;
};

}  // namespace

Result<std::unique_ptr<Diary>> Diary::open(const std::string& path) {
  auto diary = std::make_unique<RealDiary>(path);
  const auto begun = diary->begin();
  if (!begun) return failure(begun);
  return diary;
}

}  // namespace barm::server

#pragma once
// The routes of the daybook: every kind of record asked for alike, photos, changes, today.
#include <functional>
#include <memory>
#include <string>

#include "base/result.h"
#include "server/door/router.h"
#include "server/questions/ask.h"
#include "server/questions/turns.h"
#include "server/records/events.h"
#include "storage/daybook.h"

namespace barm::server {

/// An open daybook as the routes use it. May be called from any thread.
class Diary {
 public:
  /// Makes the file when there is none, and only reads one that cannot be written; an empty path is
  /// no daybook, and every route says so. Errors: as storage::Daybook::open.
  [[nodiscard]] static Result<std::unique_ptr<Diary>> open(const std::string& path);

  Diary(const Diary&) = delete;
  Diary& operator=(const Diary&) = delete;
  virtual ~Diary() = default;

  [[nodiscard]] virtual bool is_there() const = 0;

  /// What comes of a dough by what was read of it.
  using AsRead = std::function<std::optional<forecast::Timeline>(const std::string& bake_id,
                                                                 const Request& request)>;

  /// `written` is called after each change made here; heavy questions take a turn.
  virtual void add_routes(Router& router,
                          Turns& turns,
                          std::function<void()> written,
                          AsRead as_read) = 0;

  /// What has changed since a number.
  [[nodiscard]] virtual ChangesSince changes_since(std::int64_t number) = 0;

  /// How the last attempt to save went.
  [[nodiscard]] virtual storage::Saving saving() const = 0;

  /// Tries again when that was not well.
  virtual void look_whether_it_saves() = 0;

  /// storage::Daybook::epoch; it stays for as long as the daybook is open.
  [[nodiscard]] virtual std::int64_t epoch() const = 0;

  /// Number of the newest change, by whatever program.
  [[nodiscard]] virtual std::int64_t last_change() = 0;

  [[nodiscard]] virtual StoredBakes stored_bakes(const service::Now& now) = 0;

 protected:
  Diary() = default;
};

}  // namespace barm::server

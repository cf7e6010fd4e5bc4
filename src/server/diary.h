#pragma once
// The routes of the daybook: every kind of record asked for alike, photos, changes, today.
#include <functional>
#include <memory>
#include <string>

#include "base/result.h"
#include "server/ask.h"
#include "server/events.h"
#include "server/router.h"
#include "server/turns.h"

namespace barm::server {

/// An open daybook as the routes use it. May be called from any thread.
class Diary {
 public:
  /// Makes the file when there is none; an empty path is no daybook, and every route says so.
  /// Errors: as storage::Daybook::open.
  [[nodiscard]] static Result<std::unique_ptr<Diary>> open(const std::string& path);

  Diary(const Diary&) = delete;
  Diary& operator=(const Diary&) = delete;
  virtual ~Diary() = default;

  [[nodiscard]] virtual bool is_there() const = 0;

  /// `written` is called after each change made here; heavy questions take a turn.
  virtual void add_routes(Router& router, Turns& turns, std::function<void()> written) = 0;

  /// What has changed since a number.
  [[nodiscard]] virtual ChangesSince changes_since(std::int64_t number) = 0;

  /// Number of the newest change, by whatever program.
  [[nodiscard]] virtual std::int64_t last_change() = 0;

  [[nodiscard]] virtual StoredBakes stored_bakes() = 0;

 protected:
  Diary() = default;
};

}  // namespace barm::server

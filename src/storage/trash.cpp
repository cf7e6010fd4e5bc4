// The trash: putting a record there, taking it out, and what goes for good.
#include "storage/internal/trash.h"

#include <fmt/format.h>

#include "storage/internal/connection.h"
#include "storage/internal/epoch.h"
#include "storage/internal/saving.h"

namespace barm::storage {

using internal::guarded;
using internal::refuse;
using internal::words;
using internal::written;

namespace {

// SQL for what a record is called in a list of mixed kinds.
std::string title_of(Kind kind) {
  switch (kind) {
    case Kind::feeding:
      return "flour_g || ' g of flour'";
    case Kind::reading:
      return "CASE WHEN height_mm IS NULL THEN remark ELSE height_mm || ' mm ' || remark END";
    case Kind::mark:
      return "what || ' ' || of";
    case Kind::photo:
      return "caption";
    case Kind::remark:
      return "text";
    case Kind::setting:
      return "id";
    case Kind::test_member:
      return "label";
    default:
      return "title";
  }
}

struct Head {
  std::int64_t revision = 0;
  std::optional<time::Instant> deleted_at;
};

std::optional<Head> find_head(Daybook::Connection& connection, Kind kind, const std::string& id) {
  SQLite::Statement& statement = connection.statement(
      fmt::format("SELECT revision, deleted_at FROM {} WHERE id = ?", name(kind)));
  statement.bind(1, id);
  if (!statement.executeStep()) return std::nullopt;
  Head head;
  head.revision = statement.getColumn(0).getInt64();
  internal::read(statement.getColumn(1), head.deleted_at);
  statement.reset();
  return head;
}

Head head_of(Daybook::Connection& connection, Kind kind, const std::string& id) {
  const auto head = find_head(connection, kind, id);
  if (!head)
    refuse(ErrorCode::not_found, fmt::format("{} {}", words(kind), id), "there is no such record");
  return *head;
}

Change put_in_trash(Daybook::Connection& connection,
                    Kind kind,
                    const std::string& id,
                    std::optional<time::Instant> deleted_at,
                    Change change) {
  SQLite::Statement& statement = connection.statement(fmt::format(
      "UPDATE {} SET revision = ?, deleted_at = ?, saved_at = ? WHERE id = ?", name(kind)));
  statement.bind(1, change.revision);
  internal::bind(statement, 2, deleted_at);
  statement.bind(3, change.at.seconds);
  statement.bind(4, id);
  statement.exec();
  return internal::note_change(connection, std::move(change));
}

// What was changed before this number was changed before the last 30 days on which anything was
// changed at all; 0 when there were fewer. A clock that is wrong once makes one such day of it.
std::int64_t thirty_days_of_use_ago(Daybook::Connection& connection) {
  SQLite::Statement& statement = connection.statement(
      "SELECT max(number) FROM change GROUP BY at / ? ORDER BY 1 DESC LIMIT 1 OFFSET ?");
  statement.bind(1, time::seconds_a_day);
  statement.bind(2, undo_seconds / time::seconds_a_day - 1);
  const std::int64_t number = statement.executeStep() ? statement.getColumn(0).getInt64() : 0;
  statement.reset();
  return number;
}

struct Horizon {
  time::Instant before;     // by the clock
  std::int64_t number = 0;  // by use
};

std::vector<Change> old_enough(Daybook::Connection& connection,
                               Kind kind,
                               const Horizon& horizon,
                               time::Instant now) {
  if (horizon.number == 0) return {};
  SQLite::Statement& statement = connection.statement(fmt::format(
      "SELECT id, revision FROM {} WHERE deleted_at <= ?1 AND NOT EXISTS (SELECT 1 FROM change "
      "WHERE number >= ?2 AND kind = ?3 AND change.id = {}.id AND what = 'deleted')",
      name(kind),
      name(kind)));
  statement.bind(1, horizon.before.seconds);
  statement.bind(2, horizon.number);
  statement.bind(3, std::string(name(kind)));
  std::vector<Change> old;
  while (statement.executeStep()) {
    old.push_back({.number = 0,
                   .kind = kind,
                   .id = statement.getColumn(0).getString(),
                   .revision = statement.getColumn(1).getInt64(),
                   .what = "purged",
                   .at = now});
  }
  return old;
}

// The bakes of a culture that goes keep its name in a remark, and everybody is told of the change.
void leave_its_name(Daybook::Connection& connection, const std::string& id, time::Instant now) {
  const auto culture = internal::find<Culture>(connection, id);
  SQLite::Statement& statement = connection.statement("SELECT id FROM bake WHERE culture = ?");
  statement.bind(1, id);
  std::vector<std::string> bakes;
  while (statement.executeStep()) bakes.push_back(statement.getColumn(0).getString());
  for (const std::string& one : bakes) {
    auto bake = internal::find<Bake>(connection, one);
    if (!culture || !bake) continue;
    bake->culture.reset();
    bake->revision = internal::next_revision(connection, bake->revision);
    bake->saved_at = now;
    internal::write_new_revision(connection, *bake);
    Remark remark;
    remark.id = internal::new_id();
    remark.revision = internal::next_revision(connection, 0);
    remark.saved_at = now;
    remark.bake = one;
    remark.at = now;
    remark.text = fmt::format("Its culture was {}, which is no longer kept.", culture->title);
    internal::write_new_revision(connection, remark);
  }
}

std::int64_t purge_kind(Daybook::Connection& connection,
                        Kind kind,
                        const Horizon& horizon,
                        time::Instant now) {
  const std::vector<Change> old = old_enough(connection, kind, horizon, now);
  for (const Change& change : old) {
    if (kind == Kind::culture) leave_its_name(connection, change.id, now);
    SQLite::Statement& remove =
        connection.statement(fmt::format("DELETE FROM {} WHERE id = ?", name(kind)));
    remove.bind(1, change.id);
    remove.exec();
    static_cast<void>(internal::note_change(connection, change));
  }
  return static_cast<std::int64_t>(old.size());
}

}  // namespace

namespace internal {

void bring_back(Daybook::Connection& connection,
                Kind kind,
                const std::string& id,
                time::Instant now) {
  if (kind == Kind::loaf) {
    const auto loaf = find<Loaf>(connection, id);
    if (loaf) bring_back(connection, Kind::bake, loaf->bake, now);
  }
  const auto head = find_head(connection, kind, id);
  if (!head || !head->deleted_at) return;
  const std::int64_t revision = next_revision(connection, head->revision);
  static_cast<void>(
      put_in_trash(connection, kind, id, std::nullopt, {0, kind, id, revision, "restored", now}));
}

}  // namespace internal

Result<Change> Daybook::remove(Kind kind,
                               const std::string& id,
                               std::int64_t revision,
                               time::Instant now) {
  return written(*connection_, [&] {
    const Head head = head_of(*connection_, kind, id);
    const std::string called = fmt::format("{} {}", words(kind), id);
    Change change{0, kind, id, head.revision, "deleted", now};
    if (head.deleted_at) return change;
    if (revision != 0 && revision != head.revision)
      refuse(ErrorCode::conflict, called, "was changed elsewhere since; look at it again");
    change.revision = internal::next_revision(*connection_, head.revision);
    return put_in_trash(*connection_, kind, id, now, change);
  });
}

Result<Change> Daybook::undo(Kind kind, const std::string& id, time::Instant now) {
  return written(*connection_, [&] {
    const Head head = head_of(*connection_, kind, id);
    if (!head.deleted_at)
      refuse(ErrorCode::not_found, fmt::format("{} {}", words(kind), id), "is not in the trash");
    const std::int64_t revision = internal::next_revision(*connection_, head.revision);
    return put_in_trash(
        *connection_, kind, id, std::nullopt, {0, kind, id, revision, "restored", now});
  });
}

Result<std::vector<Deleted>> Daybook::trash() {
  static const std::string sql = [] {
    std::string all;
    for (const Kind kind : all_kinds) {
      all += fmt::format(
          "{}SELECT '{}', id, substr({}, 1, 200), deleted_at FROM {} WHERE deleted_at IS NOT NULL",
          all.empty() ? "" : " UNION ALL ",
          name(kind),
          title_of(kind),
          name(kind));
    }
    return all + " ORDER BY 4 DESC, 1, 2";
  }();
  return guarded(*connection_, [&] {
    SQLite::Statement& statement = connection_->statement(sql);
    std::vector<Deleted> found;
    while (statement.executeStep()) {
      found.push_back({kind_of(statement.getColumn(0).getString()).value_or(Kind::bake),
                       statement.getColumn(1).getString(),
                       statement.getColumn(2).getString(),
                       {statement.getColumn(3).getInt64()}});
    }
    return found;
  });
}

Result<std::int64_t> Daybook::purge(time::Instant now) {
  return written(*connection_, [&] {
    const Horizon horizon{{now.seconds - undo_seconds}, thirty_days_of_use_ago(*connection_)};
    std::int64_t gone = 0;
    for (const Kind kind : all_kinds) gone += purge_kind(*connection_, kind, horizon, now);
    SQLite::Statement& forget =
        connection_->statement("DELETE FROM change WHERE at < ? AND number < ?");
    forget.bind(1, horizon.before.seconds);
    forget.bind(2, horizon.number);
    forget.exec();
    return gone;
  });
}

}  // namespace barm::storage

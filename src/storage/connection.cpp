#include "storage/internal/connection.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <random>

namespace barm::storage {

Daybook::Connection::Connection(std::string file, const std::string& name, int flags, int busy_ms)
    : database(name, flags, busy_ms), path(std::move(file)) {
  sqlite3_extended_result_codes(database.getHandle(), 1);
}

void Daybook::Connection::set_up() {
  database.exec("PRAGMA foreign_keys = ON");
  database.exec("PRAGMA trusted_schema = OFF");
  database.exec("PRAGMA synchronous = FULL");
  read_only = sqlite3_db_readonly(database.getHandle(), "main") == 1;
  if (read_only) saving = Saving::read_only;
}

SQLite::Statement& Daybook::Connection::statement(const std::string& sql) {
  auto found = statements_.find(sql);
  if (found == statements_.end()) {
    if (statements_.size() >= most_statements) forget_the_oldest();
    found = statements_.emplace(sql, Kept{SQLite::Statement(database, sql), 0}).first;
  }
  found->second.used = ++uses_;
  found->second.statement.reset();
  found->second.statement.clearBindings();
  return found->second.statement;
}

// Not one that somebody is still reading: that has been asked for among the last few.
void Daybook::Connection::forget_the_oldest() {
  statements_.erase(std::min_element(
      statements_.begin(), statements_.end(), [](const auto& one, const auto& other) {
        return one.second.used < other.second.used;
      }));
}

void Daybook::Connection::let_go() {
  for (auto& [sql, kept] : statements_) kept.statement.tryReset();
}

namespace internal {

namespace {

std::string restorable(const std::string& path) {
  const auto copies = backups_of(path);
  if (copies.empty()) return "Put a copy of it in its place: barm daybook restore COPY";
  return fmt::format("Its newest copy is {}; to put that in its place: barm daybook restore {}",
                     copies.front(),
                     copies.front());
}

}  // namespace

namespace {

// What the system said when the log could last not be written. (sqlite3_system_errno() may be that
// of a later call.)
int trouble_of_log(Daybook::Connection& connection) {
  sqlite3_file* log = nullptr;
  sqlite3_file_control(connection.database.getHandle(),
                       "main",
                       SQLITE_FCNTL_JOURNAL_POINTER,
                       static_cast<void*>(&log));
  int trouble = 0;
  if (log != nullptr && log->pMethods != nullptr)
    log->pMethods->xFileControl(log, SQLITE_FCNTL_LAST_ERRNO, &trouble);
  return trouble;
}

// SQLite calls a disk full by ENOSPC alone; a quota and a limit on the size of files are the same
// to whoever saves.
bool is_full(const SQLite::Exception& exception, int trouble) {
  const int code = exception.getErrorCode() & 0xFF;
  return code == SQLITE_FULL ||
         (code == SQLITE_IOERR && (trouble == ENOSPC || trouble == EDQUOT || trouble == EFBIG));
}

// What is written last makes a write count: as long as that could not be written, nothing was
// saved. When the disk failed later, or for another reason, it may have been.
bool is_known_lost(const SQLite::Exception& exception, int trouble, Stage stage) {
  if (stage == Stage::writing || (exception.getErrorCode() & 0xFF) != SQLITE_IOERR) return true;
  return exception.getExtendedErrorCode() == SQLITE_IOERR_WRITE && is_full(exception, trouble);
}

Error io_error(const std::string& path, const std::string& what, const std::string& saved) {
  return {ErrorCode::unavailable,
          path,
          fmt::format("the disk failed ({}){}. Look whether it is broken", what, saved)};
}

}  // namespace

Error said(const SQLite::Exception& exception, const std::string& path) {
  switch (exception.getErrorCode() & 0xFF) {
    case SQLITE_FULL:
      return {ErrorCode::unavailable, path, "no room left on the disk; make room and try again"};
    case SQLITE_IOERR:
      return io_error(path, exception.what(), "");
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
      return {ErrorCode::unavailable, path, may_only_be_read};
    case SQLITE_CANTOPEN:
      return {ErrorCode::unavailable,
              path,
              "cannot be opened; look whether its folder is there and may be written"};
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {
          ErrorCode::unavailable, path, "another program has been writing for too long; try again"};
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return {ErrorCode::bad_input, path, "is damaged. " + restorable(path)};
    case SQLITE_CONSTRAINT:
    case SQLITE_MISMATCH:
    case SQLITE_TOOBIG:
      return {ErrorCode::bad_input, path, fmt::format("cannot be kept: {}", exception.what())};
    case SQLITE_ERROR:
      // A table or column of ours that is not there any more; anything else is a fault of ours.
      if (std::string_view(exception.what()).starts_with("no such "))
        return {ErrorCode::bad_input,
                path,
                fmt::format("is damaged ({}). {}", exception.what(), restorable(path))};
      throw exception;
    default:
      throw exception;
  }
}

Error not_saved(Daybook::Connection& connection, const SQLite::Exception& exception, Stage stage) {
  const int trouble = trouble_of_log(connection);
  const bool known = is_known_lost(exception, trouble, stage);
  if (is_full(exception, trouble)) {
    connection.saving = known ? Saving::disk_full : Saving::disk_fails;
    return {ErrorCode::unavailable,
            connection.path,
            known ? "no room left on the disk; nothing of this was saved. Make room and try again"
                  : "no room left on the disk; it is not known whether this was saved. Make room, "
                    "look, and try again"};
  }
  switch (exception.getErrorCode() & 0xFF) {
    case SQLITE_IOERR:
      connection.saving = Saving::disk_fails;
      return io_error(
          connection.path,
          exception.what(),
          known ? "; nothing of this was saved" : "; it is not known whether this was saved");
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN:
      connection.saving = Saving::read_only;
      return said(exception, connection.path);
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {
          ErrorCode::unavailable,
          connection.path,
          "another program has been writing for too long; nothing of this was saved. Try again"};
    default:
      return said(exception, connection.path);
  }
}

Change note_change(Daybook::Connection& connection, Change change) {
  SQLite::Statement& statement = connection.statement(
      "INSERT INTO change (kind, id, revision, what, at) VALUES (?, ?, ?, ?, ?)");
  statement.bind(1, std::string(name(change.kind)));
  statement.bind(2, change.id);
  statement.bind(3, change.revision);
  statement.bind(4, change.what);
  statement.bind(5, change.at.seconds);
  statement.exec();
  change.number = connection.database.getLastInsertRowid();
  return change;
}

std::string new_id() {
  constexpr std::array<char, 33> letters{"0123456789abcdefghjkmnpqrstvwxyz"};
  std::random_device device;
  std::string id;
  for (int i = 0; i < 16; ++i) id += letters[device() % 32];
  return id;
}

bool exists(Daybook::Connection& connection, Kind kind, const std::string& id) {
  SQLite::Statement& statement =
      connection.statement(fmt::format("SELECT 1 FROM {} WHERE id = ?", name(kind)));
  statement.bind(1, id);
  const bool found = statement.executeStep();
  statement.reset();
  return found;
}

}  // namespace internal

}  // namespace barm::storage

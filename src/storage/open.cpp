// Opening a daybook: new, as it is, brought up to date, or refused with the reason.
#include "storage/internal/open.h"

#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <system_error>
#include <thread>

#include "storage/internal/files.h"
#include "storage/internal/header.h"
#include "storage/internal/schema.h"

namespace barm::storage {

namespace fs = std::filesystem;
using internal::refuse;

namespace internal {

namespace {

using Clock = std::chrono::steady_clock;
using std::chrono::milliseconds;

// The lock that everybody holds who has the daybook open, taken before SQLite looks into the file:
// from here on nobody can put it aside.
void take_shared_lock(Daybook::Connection& connection, int busy_ms) {
  sqlite3_file& file = file_of(connection);
  const auto patience_ends = Clock::now() + milliseconds(busy_ms);
  int taken = file.pMethods->xLock(&file, SQLITE_LOCK_SHARED);
  while (taken == SQLITE_BUSY && Clock::now() < patience_ends) {
    std::this_thread::sleep_for(milliseconds(5));
    taken = file.pMethods->xLock(&file, SQLITE_LOCK_SHARED);
  }
  if (taken != SQLITE_OK) throw SQLite::Exception("the file is locked", taken);
}

// Nothing when the file was put aside between our opening it and our having a lock on it.
std::unique_ptr<Daybook::Connection> looked_at(std::unique_ptr<Daybook::Connection> connection,
                                               int busy_ms) {
  look_at_header(*connection);
  take_shared_lock(*connection, busy_ms);
  if (was_moved(*connection)) return nullptr;
  connection->set_up();
  return connection;
}

// A copy carries no log until it is first opened for writing. All promises rest on the log: readers
// and writers beside each other, and a lock for as long as anybody has the daybook open.
void give_log(const std::string& path) {
  constexpr int busy_ms = 50;  // two who try at once stand in each other's way
  try {
    const auto alone = connect_alone(path, busy_ms);
    if (alone) alone->database.exec("PRAGMA journal_mode = WAL");
  } catch (const SQLite::Exception& exception) {
    if ((exception.getErrorCode() & 0xFF) != SQLITE_BUSY) throw;
  }
}

bool has_log(Daybook::Connection& connection) {
  return connection.database.execAndGet("PRAGMA journal_mode").getString() == "wal";
}

std::unique_ptr<Daybook::Connection> connect_to_read(const std::string& path, int busy_ms) {
  const auto named = [&](const std::string& name, int flags) {
    return std::make_unique<Daybook::Connection>(
        path, name, SQLite::OPEN_READONLY | flags, busy_ms);
  };
  try {
    auto connection = looked_at(named(path, 0), busy_ms);
    if (connection) connection->database.execAndGet("SELECT count(*) FROM sqlite_schema");
    return connection;
  } catch (const SQLite::Exception&) {
    // On a read-only disk there is no place for the log's index; without a log the file is whole.
    std::error_code none;
    const auto log = fs::file_size(path + "-wal", none);
    if (!none && log > 0) throw;
    return looked_at(named(as_uri(path) + "?immutable=1", SQLite::OPEN_URI), busy_ms);
  }
}

std::unique_ptr<Daybook::Connection> connect_to_write(const std::string& path, int busy_ms) {
  auto connection = looked_at(
      std::make_unique<Daybook::Connection>(path, path, SQLite::OPEN_READWRITE, busy_ms), busy_ms);
  if (!connection || connection->read_only || has_log(*connection)) return connection;
  connection.reset();
  give_log(path);
  return nullptr;
}

}  // namespace

std::unique_ptr<Daybook::Connection> connect(const std::string& path, const Opening& opening) {
  const auto patience_ends = Clock::now() + milliseconds(opening.busy_ms + 1000);
  while (Clock::now() < patience_ends) {
    auto connection = opening.read_only ? connect_to_read(path, opening.busy_ms)
                                        : connect_to_write(path, opening.busy_ms);
    if (connection) return connection;
  }
  throw SQLite::Exception("the file is being put in place by others", SQLITE_BUSY);
}

std::unique_ptr<Daybook::Connection> connect_alone(const std::string& path, int busy_ms) {
  auto connection =
      std::make_unique<Daybook::Connection>(path, path, SQLite::OPEN_READWRITE, busy_ms);
  connection->database.exec("PRAGMA locking_mode = EXCLUSIVE");
  return looked_at(std::move(connection), busy_ms);
}

}  // namespace internal

namespace {

// Made whole under another name and only then put in place, so that there is never half a daybook.
void make_new(const std::string& path) {
  const std::string draft = path + ".new-" + internal::new_id();
  const internal::RemovedAtEnd remove(draft);
  {
    Daybook::Connection connection(path, draft, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, 5000);
    connection.set_up();
    connection.database.exec(fmt::format("PRAGMA application_id = {}", internal::application_id));
    connection.database.exec("PRAGMA journal_mode = WAL");
    internal::take_missing_steps(connection);
  }
  internal::to_disk(draft);
  static_cast<void>(internal::give_name(draft, path));  // another program may have been faster
  internal::to_disk(fs::path(path).parent_path().string());
}

void need_file(const std::string& path, const Opening& opening) {
  if (fs::is_directory(path))
    refuse(ErrorCode::bad_input, path, "is a folder; name a file such as daybook.barm");
  if (!fs::exists(path)) {
    if (!opening.create || opening.read_only)
      refuse(ErrorCode::not_found, path, "there is no such daybook");
    make_new(path);
  }
  if (::euidaccess(path.c_str(), R_OK) != 0)
    refuse(ErrorCode::unavailable, path, "may not be read; give yourself the right to read it");
}

// A file that may be written and yet cannot be opened for it lacks the room for the log's index.
Saving why_not_written(const std::string& path) {
  constexpr std::uintmax_t index_bytes = 32768;
  std::error_code none;
  const auto room = fs::space(fs::absolute(path).parent_path(), none);
  const bool full = !none && room.available < index_bytes;
  return full && ::euidaccess(path.c_str(), W_OK) == 0 ? Saving::disk_full : Saving::read_only;
}

std::unique_ptr<Daybook::Connection> open_file(const std::string& path, const Opening& opening) {
  need_file(path, opening);
  auto connection = internal::connect(path, opening);
  if (internal::version_of(*connection) < internal::newest_version()) {
    if (connection->read_only)
      refuse(ErrorCode::unavailable,
             path,
             "is of an older barm; open it once for writing, to bring it up to date");
    connection.reset();
    internal::upgrade(path, opening.busy_ms);
    connection = internal::connect(path, opening);
  }
  if (internal::version_of(*connection) != internal::newest_version())
    refuse(ErrorCode::bad_input, path, "was written by a newer barm. Use the newer program");
  return connection;
}

}  // namespace

Result<Daybook> Daybook::open(const std::string& path, const Opening& opening) {
  auto opened = internal::with_files(path, [&] { return open_file(path, opening); });
  if (!opened && opened.error().code == ErrorCode::unavailable && opening.or_read_only) {
    auto to_read = opening;
    to_read.read_only = true;
    auto read = internal::with_files(path, [&] { return open_file(path, to_read); });
    if (!read) return tl::unexpected<Error>(opened.error());
    (*read)->saving = why_not_written(path);
    return Daybook(std::move(*read));
  }
  if (!opened) return tl::unexpected<Error>(opened.error());
  return Daybook(std::move(*opened));
}

Daybook::Daybook(std::unique_ptr<Connection> connection) : connection_(std::move(connection)) {}

Daybook::Daybook(Daybook&&) noexcept = default;

Daybook& Daybook::operator=(Daybook&&) noexcept = default;

Daybook::~Daybook() = default;

const std::string& Daybook::path() const { return connection_->path; }

std::optional<Saving> Daybook::saving() const { return connection_->saving; }

void Daybook::forget_saving() { connection_->saving.reset(); }

bool Daybook::may_write() const { return !connection_->read_only; }

Result<bool> Daybook::try_saving() {
  // The header's page is written even when the number in it stays.
  const auto tried = internal::written(*connection_, [&] {
    connection_->database.exec(fmt::format("PRAGMA user_version = {}", internal::newest_version()));
    return true;
  });
  if (tried) connection_->saving = Saving::goes_on;
  return tried;
}

std::string name(Saving saving) {
  switch (saving) {
    case Saving::read_only:
      return "read_only";
    case Saving::disk_full:
      return "disk_full";
    case Saving::disk_fails:
      return "disk_fails";
    default:
      return "yes";
  }
}

}  // namespace barm::storage

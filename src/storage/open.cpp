// Opening a daybook: new, as it is, brought up to date, or refused with the reason.
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <filesystem>
#include <system_error>
#include <thread>

#include "storage/internal/connection.h"
#include "storage/internal/files.h"
#include "storage/internal/header.h"
#include "storage/internal/schema.h"

namespace barm::storage {

namespace fs = std::filesystem;
using internal::refuse;

namespace {

int version_of(Daybook::Connection& connection) {
  return connection.database.execAndGet("PRAGMA user_version").getInt();
}

// Takes the steps that are missing, each in a transaction of its own; another program may have
// taken one in the meantime.
void bring_up_to_date(Daybook::Connection& connection) {
  while (version_of(connection) < internal::newest_version()) {
    SQLite::Transaction transaction(connection.database, SQLite::TransactionBehavior::IMMEDIATE);
    const int version = version_of(connection);
    if (version >= internal::newest_version()) break;
    connection.database.exec(
        std::string(internal::schema_steps()[static_cast<std::size_t>(version)]));
    connection.database.exec(fmt::format("PRAGMA user_version = {}", version + 1));
    transaction.commit();
  }
}

// Made whole under another name and only then put in place, so that there is never half a daybook.
void make_new(const std::string& path) {
  const std::string draft = path + ".new-" + internal::new_id();
  const internal::RemovedAtEnd remove(draft);
  {
    Daybook::Connection connection(path, draft, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, 5000);
    connection.set_up();
    connection.database.exec(fmt::format("PRAGMA application_id = {}", internal::application_id));
    connection.database.exec("PRAGMA journal_mode = WAL");
    bring_up_to_date(connection);
  }
  internal::to_disk(draft);
  if (::link(draft.c_str(), path.c_str()) != 0 && errno != EEXIST) fs::rename(draft, path);
  internal::to_disk(fs::path(path).parent_path().string());
}

// A copy carries no log until it is first opened for writing. All promises rest on the log: readers
// and writers beside each other, and a lock for as long as anybody has the daybook open.
void need_log(Daybook::Connection& connection, int busy_ms) {
  using namespace std::chrono_literals;
  const auto patience_ends = std::chrono::steady_clock::now() + std::chrono::milliseconds(busy_ms);
  while (connection.database.execAndGet("PRAGMA journal_mode").getString() != "wal") {
    try {
      connection.database.exec("PRAGMA journal_mode = WAL");
    } catch (const SQLite::Exception& exception) {
      const bool busy = exception.getErrorCode() == SQLITE_BUSY;
      if (!busy || std::chrono::steady_clock::now() > patience_ends) throw;
      std::this_thread::sleep_for(20ms);
    }
  }
}

std::unique_ptr<Daybook::Connection> looked_at(const std::string& path,
                                               const std::string& name,
                                               int flags,
                                               int busy_ms) {
  auto connection = std::make_unique<Daybook::Connection>(path, name, flags, busy_ms);
  internal::look_at_header(*connection);
  connection->set_up();
  return connection;
}

std::unique_ptr<Daybook::Connection> connect(const std::string& path, const Opening& opening) {
  if (!opening.read_only) {
    auto connection = looked_at(path, path, SQLite::OPEN_READWRITE, opening.busy_ms);
    if (!connection->read_only) need_log(*connection, opening.busy_ms);
    return connection;
  }
  try {
    auto connection = looked_at(path, path, SQLite::OPEN_READONLY, opening.busy_ms);
    version_of(*connection);
    connection->database.execAndGet("SELECT count(*) FROM sqlite_schema");
    return connection;
  } catch (const SQLite::Exception&) {
    // On a read-only disk there is no place for the log's index; without a log the file is whole.
    std::error_code none;
    const auto log = fs::file_size(path + "-wal", none);
    if (!none && log > 0) throw;
    return looked_at(path,
                     internal::as_uri(path) + "?immutable=1",
                     SQLite::OPEN_READONLY | SQLite::OPEN_URI,
                     opening.busy_ms);
  }
}

// Once it has been read it holds a lock until it is closed, so that nobody puts the file aside
// under it; what happened before that is seen by its name.
std::unique_ptr<Daybook::Connection> connect_to_the_one_in_place(const std::string& path,
                                                                 const Opening& opening) {
  constexpr int most_tries = 10;
  for (int i = 0; i < most_tries; ++i) {
    auto connection = connect(path, opening);
    if (!internal::was_moved(*connection)) return connection;
  }
  refuse(ErrorCode::unavailable, path, "is being put in place again and again; try later");
}

std::unique_ptr<Daybook::Connection> open_file(const std::string& path, const Opening& opening) {
  if (fs::is_directory(path))
    refuse(ErrorCode::bad_input, path, "is a folder; name a file such as daybook.barm");
  if (!fs::exists(path)) {
    if (!opening.create || opening.read_only)
      refuse(ErrorCode::not_found, path, "there is no such daybook");
    make_new(path);
  }
  if (::access(path.c_str(), R_OK) != 0)
    refuse(ErrorCode::unavailable, path, "may not be read; give yourself the right to read it");
  auto connection = connect_to_the_one_in_place(path, opening);
  const int version = version_of(*connection);
  if (version > internal::newest_version())
    refuse(ErrorCode::bad_input, path, "was written by a newer barm. Use the newer program");
  if (version == internal::newest_version()) return connection;
  if (opening.read_only)
    refuse(ErrorCode::unavailable,
           path,
           "is of an older barm; open it once for writing, to bring it up to date");
  internal::keep_copy(*connection,
                      internal::backup_folder(path) +
                          fmt::format("/before-version-{}.barm", internal::newest_version()));
  bring_up_to_date(*connection);
  return connection;
}

}  // namespace

Result<Daybook> Daybook::open(const std::string& path, const Opening& opening) {
  try {
    auto opened = internal::guarded(path, [&] { return open_file(path, opening); });
    if (!opened) return tl::unexpected<Error>(opened.error());
    return Daybook(std::move(*opened));
  } catch (const fs::filesystem_error& trouble) {
    return failure(ErrorCode::unavailable, path, trouble.code().message());
  }
}

Daybook::Daybook(std::unique_ptr<Connection> connection) : connection_(std::move(connection)) {}

Daybook::Daybook(Daybook&&) noexcept = default;

Daybook& Daybook::operator=(Daybook&&) noexcept = default;

Daybook::~Daybook() = default;

const std::string& Daybook::path() const { return connection_->path; }

}  // namespace barm::storage

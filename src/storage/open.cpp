// Opening a daybook: new, as it is, brought up to date, or refused with the reason.
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <system_error>
#include <thread>

#include "storage/internal/connection.h"
#include "storage/internal/files.h"
#include "storage/internal/schema.h"

namespace barm::storage {

namespace fs = std::filesystem;
using internal::refuse;

namespace {

const int newest_version = static_cast<int>(internal::schema_steps().size());

std::uint32_t big_endian(const std::array<unsigned char, 100>& header, std::size_t at) {
  return (std::uint32_t{header.at(at)} << 24U) | (std::uint32_t{header.at(at + 1)} << 16U) |
         (std::uint32_t{header.at(at + 2)} << 8U) | std::uint32_t{header.at(at + 3)};
}

std::string or_restore(const std::string& path) {
  const auto copies = backups_of(path);
  const std::string copy = copies.empty() ? "COPY" : copies.front();
  return (copies.empty() ? "If you have a copy: " : "There is a copy: ") +
         fmt::format("barm daybook restore {}", copy);
}

// Pages that are still in the log beside the file may be missing in it; without a log none may.
// Another program may just be bringing its log in, so a miss is looked at again.
bool cut_short(const std::string& path, const std::array<unsigned char, 100>& header) {
  const std::uint64_t raw_page = (std::uint64_t{header.at(16)} << 8U) | header.at(17);
  const std::uint64_t page = raw_page == 1 ? 65536 : raw_page;
  for (int look = 0; look < 5; ++look) {
    if (look > 0) std::this_thread::sleep_for(std::chrono::milliseconds(20));
    std::error_code none;
    const auto log = fs::file_size(path + "-wal", none);
    if (!none && log > 0) return false;
    if (fs::file_size(path) >= page * big_endian(header, 28)) return false;
  }
  return true;
}

// What the first 100 bytes tell without SQLite: https://www.sqlite.org/fileformat.html,
// section 1.3.
void look_at_header(const std::string& path) {
  std::array<unsigned char, 100> header{};
  std::ifstream file(path, std::ios::binary);
  if (!file)
    refuse(ErrorCode::unavailable, path, "may not be read; give yourself the right to read it");
  file.read(reinterpret_cast<char*>(header.data()), header.size());
  const auto size = static_cast<std::uint64_t>(fs::file_size(path));
  if (size < header.size())
    refuse(ErrorCode::bad_input, path, "is cut short and no daybook any more. " + or_restore(path));
  constexpr std::string_view magic("SQLite format 3\0", 16);
  const std::string_view begins(reinterpret_cast<const char*>(header.data()), magic.size());
  if (begins != magic || big_endian(header, 68) != internal::application_id)
    refuse(ErrorCode::bad_input, path, "is no daybook. " + or_restore(path));
  const std::uint32_t version = big_endian(header, 60);
  if (version > static_cast<std::uint32_t>(newest_version)) {
    refuse(ErrorCode::bad_input,
           path,
           fmt::format("was written by a newer barm (daybook version {}, this one reads up to {}); "
                       "it is left as it is. Use the newer program",
                       version,
                       newest_version));
  }
  if (cut_short(path, header))
    refuse(ErrorCode::bad_input, path, "is cut short. " + or_restore(path));
}

int version_of(Daybook::Connection& connection) {
  return connection.database.execAndGet("PRAGMA user_version").getInt();
}

// Takes the steps that are missing, each in a transaction of its own; another program may have
// taken one in the meantime.
void bring_up_to_date(Daybook::Connection& connection) {
  while (version_of(connection) < newest_version) {
    SQLite::Transaction transaction(connection.database, SQLite::TransactionBehavior::IMMEDIATE);
    const int version = version_of(connection);
    if (version >= newest_version) break;
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
    connection.database.exec(fmt::format("PRAGMA application_id = {}", internal::application_id));
    connection.database.exec("PRAGMA journal_mode = WAL");
    bring_up_to_date(connection);
  }
  internal::to_disk(draft);
  if (::link(draft.c_str(), path.c_str()) != 0 && errno != EEXIST) fs::rename(draft, path);
  internal::to_disk(fs::path(path).parent_path().string());
}

std::unique_ptr<Daybook::Connection> connect(const std::string& path, const Opening& opening) {
  if (!opening.read_only) {
    return std::make_unique<Daybook::Connection>(
        path, path, SQLite::OPEN_READWRITE, opening.busy_ms);
  }
  try {
    auto connection =
        std::make_unique<Daybook::Connection>(path, path, SQLite::OPEN_READONLY, opening.busy_ms);
    version_of(*connection);
    connection->database.execAndGet("SELECT count(*) FROM sqlite_schema");
    return connection;
  } catch (const SQLite::Exception&) {
    // On a read-only disk there is no place for the log's index; without a log the file is whole.
    std::error_code none;
    const auto log = fs::file_size(path + "-wal", none);
    if (!none && log > 0) throw;
    return std::make_unique<Daybook::Connection>(path,
                                                 internal::as_uri(path) + "?immutable=1",
                                                 SQLite::OPEN_READONLY | SQLite::OPEN_URI,
                                                 opening.busy_ms);
  }
}

std::unique_ptr<Daybook::Connection> open_file(const std::string& path, const Opening& opening) {
  if (fs::is_directory(path))
    refuse(ErrorCode::bad_input, path, "is a folder; name a file such as daybook.barm");
  if (!fs::exists(path)) {
    if (!opening.create || opening.read_only)
      refuse(ErrorCode::not_found, path, "there is no such daybook");
    make_new(path);
  }
  look_at_header(path);
  auto connection = connect(path, opening);
  const int version = version_of(*connection);
  if (version > newest_version)
    refuse(ErrorCode::bad_input, path, "was written by a newer barm. Use the newer program");
  if (version == newest_version) return connection;
  if (opening.read_only)
    refuse(ErrorCode::unavailable,
           path,
           "is of an older barm; open it once for writing, to bring it up to date");
  internal::keep_copy(
      *connection,
      internal::backup_folder(path) + fmt::format("/before-version-{}.barm", newest_version));
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

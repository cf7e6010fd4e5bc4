#include "storage/internal/header.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <array>
#include <chrono>
#include <filesystem>
#include <string_view>
#include <system_error>
#include <thread>

#include "storage/internal/schema.h"

namespace barm::storage::internal {

namespace fs = std::filesystem;

namespace {

// https://www.sqlite.org/fileformat.html, section 1.3.
using HeaderBytes = std::array<unsigned char, 100>;

std::uint32_t big_endian(const HeaderBytes& header, std::size_t at) {
  return (std::uint32_t{header.at(at)} << 24U) | (std::uint32_t{header.at(at + 1)} << 16U) |
         (std::uint32_t{header.at(at + 2)} << 8U) | std::uint32_t{header.at(at + 3)};
}

std::string or_restore(const std::string& path) {
  const auto copies = backups_of(path);
  const std::string copy = copies.empty() ? "COPY" : copies.front();
  return (copies.empty() ? "If you have a copy: " : "There is a copy: ") +
         fmt::format("barm daybook restore {}", copy);
}

std::uint64_t size_of(sqlite3_file& file) {
  sqlite3_int64 size = 0;
  if (file.pMethods->xFileSize(&file, &size) != SQLITE_OK) return 0;
  return static_cast<std::uint64_t>(size);
}

// Pages that are still in the log beside the file may be missing in it; without a log none may.
// Another program may just be bringing its log in, so a miss is looked at again.
bool cut_short(const std::string& path, sqlite3_file& file, const HeaderBytes& header) {
  const std::uint64_t raw_page = (std::uint64_t{header.at(16)} << 8U) | header.at(17);
  const std::uint64_t page = raw_page == 1 ? 65536 : raw_page;
  for (int look = 0; look < 5; ++look) {
    if (look > 0) std::this_thread::sleep_for(std::chrono::milliseconds(20));
    std::error_code none;
    const auto log = fs::file_size(path + "-wal", none);
    if (!none && log > 0) return false;
    if (size_of(file) >= page * big_endian(header, 28)) return false;
  }
  return true;
}

HeaderBytes header_of(const std::string& path, sqlite3_file& file) {
  HeaderBytes header{};
  const int done = file.pMethods->xRead(&file, header.data(), header.size(), 0);
  if (done == SQLITE_IOERR_SHORT_READ)
    refuse(ErrorCode::bad_input, path, "is cut short and no daybook any more. " + or_restore(path));
  if (done != SQLITE_OK)
    refuse(ErrorCode::unavailable, path, "could not be read; look whether the disk is broken");
  return header;
}

}  // namespace

sqlite3_file& file_of(Daybook::Connection& connection) {
  sqlite3_file* file = nullptr;
  sqlite3_file_control(connection.database.getHandle(),
                       "main",
                       SQLITE_FCNTL_FILE_POINTER,
                       static_cast<void*>(&file));
  if (file == nullptr || file->pMethods == nullptr)
    refuse(ErrorCode::bad_input, connection.path, "is no file; name one such as daybook.barm");
  return *file;
}

void look_at_header(Daybook::Connection& connection) {
  const std::string& path = connection.path;
  sqlite3_file& file = file_of(connection);
  const HeaderBytes header = header_of(path, file);
  constexpr std::string_view magic("SQLite format 3\0", 16);
  const std::string_view begins(reinterpret_cast<const char*>(header.data()), magic.size());
  if (begins != magic || big_endian(header, 68) != application_id)
    refuse(ErrorCode::bad_input, path, "is no daybook. " + or_restore(path));
  const std::uint32_t version = big_endian(header, 60);
  if (version > static_cast<std::uint32_t>(newest_version())) {
    refuse(ErrorCode::bad_input,
           path,
           fmt::format("was written by a newer barm (daybook version {}, this one reads up to {}); "
                       "it is left as it is. Use the newer program",
                       version,
                       newest_version()));
  }
  if (cut_short(path, file, header))
    refuse(ErrorCode::bad_input, path, "is cut short. " + or_restore(path));
}

bool was_moved(Daybook::Connection& connection) {
  int moved = 0;
  sqlite3_file_control(
      connection.database.getHandle(), "main", SQLITE_FCNTL_HAS_MOVED, static_cast<void*>(&moved));
  return moved != 0;
}

}  // namespace barm::storage::internal

// Copies of a daybook.
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>

#include "storage/internal/files.h"

namespace barm::storage {

namespace fs = std::filesystem;
using internal::refuse;
using internal::with_files;

namespace internal {

RemovedAtEnd::~RemovedAtEnd() {
  if (path_.empty()) return;
  std::error_code ignored;
  for (const char* tail : {"", "-wal", "-shm", "-journal"}) fs::remove(path_ + tail, ignored);
}

void to_disk(const std::string& path) {
  const int file = ::open(path.empty() ? "." : path.c_str(), O_RDONLY | O_CLOEXEC);
  if (file < 0) return;
  const int trouble = ::fsync(file) == 0 ? 0 : errno;
  ::close(file);
  if (trouble != 0 && trouble != EINVAL)
    throw fs::filesystem_error("fsync", path, std::error_code(trouble, std::generic_category()));
}

std::string free_name(const std::string& stem, const std::string& tail) {
  for (int n = 1;; ++n) {
    std::string candidate = fmt::format("{}-{}{}", stem, n, tail);
    if (!fs::exists(candidate)) return candidate;
  }
}

bool give_name(const std::string& draft, const std::string& name) {
  // A file of two names would have two logs: so not by link().
  if (::renameat2(AT_FDCWD, draft.c_str(), AT_FDCWD, name.c_str(), RENAME_NOREPLACE) == 0)
    return true;
  if (errno == EEXIST || fs::exists(name)) return false;
  fs::rename(draft, name);  // a file system that knows no such step
  return true;
}

std::string backup_folder(const std::string& path) { return path + ".backups"; }

std::string as_uri(const std::string& path) {
  std::string uri = "file:";
  for (const char c : path) {
    const auto byte = static_cast<unsigned char>(c);
    const bool plain = std::isalnum(byte) != 0 || c == '/' || c == '.' || c == '-' || c == '_';
    uri += plain ? std::string(1, c) : fmt::format("%{:02X}", byte);
  }
  return uri;
}

void keep_copy(Daybook::Connection& connection, const std::string& to) {
  const fs::path folder = fs::path(to).parent_path();
  if (!folder.empty()) fs::create_directories(folder);
  const std::string draft = to + ".new-" + new_id();
  const RemovedAtEnd remove(draft);
  SQLite::Statement vacuum(connection.database, "VACUUM INTO ?");
  vacuum.bind(1, draft);
  vacuum.exec();
  to_disk(draft);
  fs::rename(draft, to);
  to_disk(folder.string());
}

}  // namespace internal

Result<std::string> Daybook::back_up(const std::string& to) {
  return with_files(to, [&] {
    if (fs::exists(to)) refuse(ErrorCode::bad_input, to, "is there already; name a new file");
    internal::keep_copy(*connection_, to);
    return to;
  });
}

}  // namespace barm::storage

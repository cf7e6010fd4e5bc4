// Copies of a daybook, and putting one back.
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <system_error>

#include "storage/internal/files.h"

namespace barm::storage {

namespace fs = std::filesystem;
using internal::refuse;

namespace internal {

RemovedAtEnd::~RemovedAtEnd() {
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

namespace {

// The machine's own complaints about files, in our words.
template <class F>
auto with_files(const std::string& path, F f) -> decltype(internal::guarded(path, f)) {
  try {
    return internal::guarded(path, f);
  } catch (const fs::filesystem_error& trouble) {
    return failure(ErrorCode::unavailable, path, trouble.code().message());
  }
}

// Nobody else may have it open: only then can the file leave WAL mode.
void need_alone(const std::string& path) {
  try {
    SQLite::Database database(path, SQLite::OPEN_READWRITE, 100);
    database.exec("PRAGMA journal_mode = DELETE");
  } catch (const SQLite::Exception& exception) {
    const Error error = internal::said(exception, path);
    if (error.code == ErrorCode::unavailable)
      refuse(ErrorCode::unavailable, path, "a program has it open; end that first");
  }
}

std::string free_name(const std::string& stem) {
  for (int n = 1;; ++n) {
    std::string candidate = fmt::format("{}-{}", stem, n);
    if (!fs::exists(candidate)) return candidate;
  }
}

void put_aside(const std::string& path) {
  if (!fs::exists(path)) return;
  need_alone(path);
  const std::string aside = free_name(path + ".before-restore");
  fs::rename(path, aside);
  for (const char* tail : {"-wal", "-shm"}) {
    if (fs::exists(path + tail)) fs::rename(path + tail, aside + tail);
  }
}

}  // namespace

Result<std::string> Daybook::back_up(const std::string& to) {
  return with_files(to, [&] {
    if (fs::exists(to)) refuse(ErrorCode::bad_input, to, "is there already; name a new file");
    internal::keep_copy(*connection_, to);
    return to;
  });
}

Result<std::string> restore(const std::string& backup, const std::string& path) {
  auto copy = Daybook::open(backup, {.create = false, .read_only = true});
  if (!copy) return failure(copy);
  const auto wrong = copy->check();
  if (!wrong) return failure(wrong);
  if (!wrong->empty())
    return failure(ErrorCode::bad_input, backup, "is damaged itself: " + wrong->front());
  return with_files(path, [&] {
    const std::string draft = path + ".new-" + internal::new_id();
    const internal::RemovedAtEnd remove(draft);
    internal::keep_copy(copy->connection(), draft);
    put_aside(path);
    fs::rename(draft, path);
    internal::to_disk(fs::path(path).parent_path().string());
    return path;
  });
}

}  // namespace barm::storage

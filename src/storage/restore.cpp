// Putting a copy in the place of a daybook.
#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <cstdio>
#include <filesystem>

#include "base/require.h"
#include "storage/internal/epoch.h"
#include "storage/internal/files.h"
#include "storage/internal/header.h"
#include "storage/internal/open.h"

namespace barm::storage {

namespace fs = std::filesystem;
using internal::refuse;

namespace {

[[noreturn]] void refuse_as_open(const std::string& path) {
  refuse(ErrorCode::unavailable, path, "a program has it open; end that first");
}

// The daybook that is to make way. From here to its end nobody else has it open: SQLite's exclusive
// lock is not given while any other program, or another connection of this one, holds one.
class MakingWay {
 public:
  explicit MakingWay(const std::string& path)
      : connection_(path, path, SQLite::OPEN_READWRITE, 200) {
    // At its end the log of that name may be the new daybook's: it is to be left alone.
    sqlite3_db_config(
        connection_.database.getHandle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
    if (sqlite3_db_readonly(connection_.database.getHandle(), "main") == 1)
      refuse(ErrorCode::unavailable, path, "may only be read; give yourself the right to write it");
    take_log_in();
    sqlite3_file& file = internal::file_of(connection_);
    for (const int lock : {SQLITE_LOCK_SHARED, SQLITE_LOCK_EXCLUSIVE}) {
      if (file.pMethods->xLock(&file, lock) != SQLITE_OK) refuse_as_open(path);
    }
    if (internal::was_moved(connection_) || (whole_ && fs::exists(path + "-wal")))
      refuse_as_open(path);
  }

  /// Above all numbers it has given out, as far as it can be read.
  [[nodiscard]] std::int64_t last_number() const { return last_number_; }

  /// Both change their names in one step, so that there is a daybook at every moment; where the
  /// file system cannot do that, in two.
  void make_way_for(const std::string& draft, const std::string& aside) {
    const std::string& path = connection_.path;
    // A log that could not be taken in must not meet the new file.
    for (const char* tail : {"-wal", "-journal"}) {
      if (fs::exists(path + tail)) fs::rename(path + tail, aside + tail);
    }
    fs::remove(path + "-shm");
    if (::renameat2(AT_FDCWD, draft.c_str(), AT_FDCWD, path.c_str(), RENAME_EXCHANGE) == 0) {
      fs::rename(draft, aside);
    } else {
      fs::rename(path, aside);
      fs::rename(draft, path);
    }
  }

 private:
  // All that is in the log comes into the file itself. A damaged file keeps its log.
  void take_log_in() {
    try {
      const auto& sql =
          "SELECT coalesce((SELECT seq FROM sqlite_sequence WHERE name = 'change'), 0)";
      connection_.database.exec("PRAGMA journal_mode = DELETE");
      if (connection_.database.tableExists("sqlite_sequence"))
        last_number_ = connection_.database.execAndGet(sql).getInt64();
    } catch (const SQLite::Exception& exception) {
      whole_ = false;
      switch (exception.getErrorCode() & 0xFF) {
        case SQLITE_BUSY:
          refuse_as_open(connection_.path);
        case SQLITE_CORRUPT:
        case SQLITE_NOTADB:
          return;
        default:
          throw;
      }
    }
  }

  Daybook::Connection connection_;
  bool whole_ = true;
  std::int64_t last_number_ = 0;
};

// A whole daybook of today's kind with all that is in the copy.
void make_draft(const std::string& copy, const std::string& draft) {
  const auto from = internal::connect(copy, {.create = false, .read_only = true});
  const auto found = from->database.execAndGet("PRAGMA integrity_check(1)").getString();
  if (found != "ok") refuse(ErrorCode::bad_input, copy, "is damaged itself: " + found);
  internal::keep_copy(*from, draft);
  const auto made = internal::connect_alone(draft, 0);
  require(made != nullptr, "nobody else knows the draft's name");
  made->database.exec("PRAGMA journal_mode = WAL");
  internal::take_missing_steps(*made);
}

void need_sound(const std::string& copy, const std::string& draft) {
  auto daybook = Daybook::open(draft);
  const auto wrong =
      daybook ? daybook->check() : Result<std::vector<std::string>>(failure(daybook));
  if (!wrong) throw internal::LeaveTransaction{wrong.error()};
  if (!wrong->empty()) refuse(ErrorCode::bad_input, copy, "is damaged itself: " + wrong->front());
}

void number_anew(const std::string& draft, std::int64_t last_number) {
  const auto made = internal::connect_alone(draft, 0);
  require(made != nullptr, "nobody else knows the draft's name");
  internal::begin_epoch(*made, last_number);
}

void put_in_place(internal::RemovedAtEnd& remove,
                  const std::string& draft,
                  const std::string& path) {
  if (!fs::exists(path)) {
    number_anew(draft, 0);
    internal::to_disk(draft);
    if (!internal::give_name(draft, path)) refuse_as_open(path);
    return;
  }
  MakingWay old(path);
  number_anew(draft, old.last_number());
  internal::to_disk(draft);
  remove.keep();  // the name may be the old daybook's from here on
  old.make_way_for(draft, internal::free_name(path + ".before-restore", ""));
}

}  // namespace

Result<std::string> restore(const std::string& backup, const std::string& path) {
  return internal::with_files(path, [&] {
    if (!fs::exists(backup)) refuse(ErrorCode::not_found, backup, "there is no such daybook");
    std::error_code none;
    if (fs::equivalent(backup, path, none))
      refuse(ErrorCode::bad_input, backup, "is that daybook itself; name a copy of it");
    const std::string draft = path + ".new-" + internal::new_id();
    internal::RemovedAtEnd remove(draft);
    make_draft(backup, draft);
    need_sound(backup, draft);
    put_in_place(remove, draft, path);
    internal::to_disk(fs::path(path).parent_path().string());
    return path;
  });
}

}  // namespace barm::storage

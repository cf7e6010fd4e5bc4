#include "cli/new_files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <system_error>

namespace barm::cli {

namespace fs = std::filesystem;

namespace {

constexpr const char* is_there = "is there already: name a new file, or say --replace";

bool same_file(const std::string& one, const std::string& other) {
  std::error_code none;
  return fs::equivalent(one, other, none) ||
         fs::weakly_canonical(one, none) == fs::weakly_canonical(other, none);
}

// A file under another name until it is put in its place, or gone.
class Draft {
 public:
  explicit Draft(const std::string& path)
      : name_(path + ".XXXXXX"),
        file_(::mkostemp(name_.data(), O_CLOEXEC)),
        trouble_(file_ < 0 ? errno : 0) {}

  Draft(const Draft&) = delete;
  Draft& operator=(const Draft&) = delete;

  ~Draft() {
    if (file_ < 0) return;
    ::close(file_);
    ::unlink(name_.c_str());  // no longer there when it was put in place
  }

  // 0, or the number of the trouble.
  [[nodiscard]] int fill(std::string_view bytes) const {
    if (file_ < 0) return trouble_;
    while (!bytes.empty()) {
      const ssize_t written = ::write(file_, bytes.data(), bytes.size());
      if (written < 0 && errno != EINTR) return errno;
      if (written > 0) bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    const mode_t mask = ::umask(0);
    ::umask(mask);
    constexpr mode_t for_all = 0666;
    return ::fchmod(file_, for_all & ~mask) == 0 && ::fsync(file_) == 0 ? 0 : errno;
  }

  [[nodiscard]] int put_in_place(const std::string& path, bool over) const {
    const int done =
        over ? std::rename(name_.c_str(), path.c_str())
             : ::renameat2(AT_FDCWD, name_.c_str(), AT_FDCWD, path.c_str(), RENAME_NOREPLACE);
    return done == 0 ? 0 : errno;
  }

 private:
  std::string name_;
  int file_;
  int trouble_;  // of making it
};

}  // namespace

Result<bool> NewFiles::plan(const std::string& path) {
  if (path.empty()) return true;
  const auto wrong = [&](const char* words) { return failure(ErrorCode::bad_input, path, words); };
  for (const std::string& other : taken_) {
    if (same_file(path, other))
      return wrong("is read or written by this command too: name another");
  }
  std::error_code none;
  const fs::file_status there = fs::status(path, none);
  if (fs::exists(there) && !fs::is_regular_file(there)) return wrong("is no file: name a new one");
  if (fs::exists(there) && !replace_) return wrong(is_there);
  const fs::path folder = fs::path(path).parent_path();
  if (!folder.empty() && !fs::is_directory(folder, none))
    return wrong("is in no folder that is there");
  taken_.push_back(path);
  return true;
}

Result<bool> NewFiles::write(const std::string& path, std::string_view bytes) const {
  std::error_code none;
  // A link stays one: what it points to is replaced.
  const std::string target = fs::is_symlink(path, none) ? fs::canonical(path, none).string() : path;
  const Draft draft(target);
  int trouble = draft.fill(bytes);
  if (trouble == 0) trouble = draft.put_in_place(target, replace_);
  if (trouble == 0) return true;
  if (trouble == EEXIST) return failure(ErrorCode::bad_input, path, is_there);
  return failure(ErrorCode::unavailable,
                 path,
                 fmt::format("cannot be written ({}): name one in a folder of yours that has room",
                             std::strerror(trouble)));
}

}  // namespace barm::cli

#include "server/wire/internal/private_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <system_error>

namespace barm::server::internal {

namespace {

[[noreturn]] void refuse(const std::string& path) {
  throw std::filesystem::filesystem_error(
      "cannot write", path, std::error_code(errno, std::generic_category()));
}

}  // namespace

void write_private(const std::string& path, const std::string& text) {
  const std::string fresh = path + ".new";
  ::unlink(fresh.c_str());
  const int file =
      ::open(fresh.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR);
  if (file < 0) refuse(path);
  std::size_t at = 0;
  while (at < text.size()) {
    const ssize_t written = ::write(file, text.data() + at, text.size() - at);
    if (written <= 0) break;
    at += static_cast<std::size_t>(written);
  }
  const bool whole = at == text.size() && ::fsync(file) == 0;
  ::close(file);
  if (!whole || ::rename(fresh.c_str(), path.c_str()) != 0) {
    const int reason = errno;
    ::unlink(fresh.c_str());
    errno = reason;
    refuse(path);
  }
}

void make_private_folder(const std::string& path) {
  if (::mkdir(path.c_str(), S_IRWXU) != 0 && errno != EEXIST) refuse(path);
}

}  // namespace barm::server::internal

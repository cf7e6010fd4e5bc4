#include "cli/output.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string>

#include "base/complain.h"
#include "base/error.h"

namespace barm::cli {

namespace {

bool is_closed(int stream) { return ::fcntl(stream, F_GETFD) < 0 && errno == EBADF; }

// The lowest free descriptor is taken, which is the closed stream's: they are looked at in order.
void open_at(int stream, const char* device) {
  if (is_closed(stream)) (void)::open(device, O_RDWR);
}

int trouble_of_output = 0;

}  // namespace

void put_out(std::string_view text) {
  if (std::fwrite(text.data(), 1, text.size(), stdout) < text.size()) trouble_of_output = errno;
}

void put_beside(std::string_view text) { (void)std::fwrite(text.data(), 1, text.size(), stderr); }

std::function<void(double)> said_on_terminal() {
  if (isatty(STDERR_FILENO) == 0) return {};
  return [last = -1](double share) mutable {
    const auto percent = static_cast<int>(100 * share);
    if (percent == last) return;
    last = percent;
    put_beside(fmt::format("\r{:3} %{}", percent, percent >= 100 ? "\r      \r" : ""));
  };
}

void open_missing_streams() {
  open_at(STDIN_FILENO, "/dev/null");
  open_at(STDOUT_FILENO, "/dev/full");  // nobody can read what is written: a write must fail
  open_at(STDERR_FILENO, "/dev/null");
}

int after_writing(int status) {
  if (std::fflush(stdout) != 0) trouble_of_output = errno;
  if (trouble_of_output == 0 && std::ferror(stdout) == 0) return status;
  complain(std::string("the output could not be written: ") + std::strerror(trouble_of_output));
  return status == 0 ? exit_status(ErrorCode::unavailable) : status;
}

}  // namespace barm::cli

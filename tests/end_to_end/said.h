#pragma once
// A program run as a user runs it, and what it said.
#include <sys/wait.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <string>

namespace barm::test {

struct Said {
  std::string out;
  int status = 0;
};

/// Runs a command of the shell.
inline Said said_by(const std::string& command) {
  Said said;
  std::FILE* pipe = popen(command.c_str(), "r");
  std::array<char, 4096> buffer{};
  while (const std::size_t n = std::fread(buffer.data(), 1, buffer.size(), pipe))
    said.out.append(buffer.data(), n);
  const int status = pclose(pipe);
  said.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128;
  return said;
}

/// Runs barm in the project's folder; of standard error nothing is kept, or nothing else when
/// `errors` is set. `with`: variables of the environment, as the shell takes them.
inline Said barm(const std::string& arguments, bool errors = false, const std::string& with = "") {
  return said_by("cd '" BARM_ROOT "' && NO_COLOR=1 " + with + " '" BARM_BINARY "' " + arguments +
                 (errors ? " 2>&1 >/dev/null" : " 2>/dev/null"));
}

/// Characters of the widest line.
inline int widest_line(const std::string& text) {
  int widest = 0;
  int width = 0;
  for (const char c : text) {
    if (c == '\n') {
      width = 0;
    } else if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
      widest = std::max(widest, ++width);
    }
  }
  return widest;
}

}  // namespace barm::test

#pragma once
#include <cstdio>
#include <stdexcept>
#include <string>

namespace barm::test {

/// What a command prints. Throws when it cannot be run or fails: a check that is not made is no
/// check.
inline std::string output_of(const std::string& command) {
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot run " + command);
  std::string text;
  for (char part[256]; std::fgets(part, sizeof part, pipe) != nullptr;) text += part;
  if (pclose(pipe) != 0)
    throw std::runtime_error("failed (is python3-scipy installed?): " + command);
  return text;
}

}  // namespace barm::test

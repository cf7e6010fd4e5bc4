#pragma once
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace barm::test {

/// The numbers that an R script prints with cat(); empty when R is not there or fails. R is the
/// outside reference for distributions and fits (Debian's r-base-core, base packages only).
inline std::vector<double> from_r(const std::string& script) {
  const auto path =
      std::filesystem::temp_directory_path() / ("barm-" + std::to_string(getpid()) + "-oracle.R");
  std::ofstream(path) << "options(digits = 15)\n" << script;
  std::FILE* pipe = popen(("Rscript --vanilla '" + path.string() + "' 2>/dev/null").c_str(), "r");
  std::string out;
  if (pipe != nullptr) {
    char buffer[4096];
    while (const std::size_t n = std::fread(buffer, 1, sizeof buffer, pipe)) out.append(buffer, n);
    if (pclose(pipe) != 0) out.clear();
  }
  std::filesystem::remove(path);
  std::vector<double> numbers;
  std::istringstream in(out);
  for (double value = 0; in >> value;) numbers.push_back(value);
  return numbers;
}

}  // namespace barm::test

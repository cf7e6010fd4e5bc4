#pragma once
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

namespace barm::test {

/// Notes a comparison with a published value for docs/validation.md: one tab-separated line
/// (group, what, source, theirs, ours, unit; yes, no, or told for a figure without a target) at the
/// end of the file that the environment variable BARM_VALIDATION_LOG names; nothing when it is not
/// set.
inline void record(const std::string& group,
                   const std::string& what,
                   const std::string& source,
                   const std::string& theirs,
                   double ours,
                   const std::string& unit,
                   const std::string& agrees) {
  const char* path = std::getenv("BARM_VALIDATION_LOG");
  if (path == nullptr) return;
  std::ostringstream line;
  line.precision(6);
  line << group << '\t' << what << '\t' << source << '\t' << theirs << '\t' << ours << '\t' << unit
       << '\t' << agrees << '\n';
  std::ofstream(path, std::ios::app) << line.str();
}

inline void record(const std::string& group,
                   const std::string& what,
                   const std::string& source,
                   const std::string& theirs,
                   double ours,
                   const std::string& unit,
                   bool agrees) {
  record(group, what, source, theirs, ours, unit, std::string(agrees ? "yes" : "no"));
}

}  // namespace barm::test

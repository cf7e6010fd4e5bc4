#pragma once
#include <string>

namespace barm::cli {

/// Which barm this is; written while building (cmake/Version.cmake).
struct Version {
  const char* number;  ///< "0.1.0"
  const char* commit;  ///< short, with + behind it when files were changed since; or "unknown"
  const char* date;    ///< of the commit, "2026-11-28"; or "unknown"
  const char* data;    ///< the first 12 digits of the SHA-256 of all files of data/
};

[[nodiscard]] const Version& version();

/// As `barm --version` says it.
[[nodiscard]] std::string version_text();

}  // namespace barm::cli

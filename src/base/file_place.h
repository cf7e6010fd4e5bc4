#pragma once
#include <string>

namespace barm {

/// Where in a file a thing stands, for errors. Line 0: the file as a whole.
struct FilePlace {
  std::string file;
  int line = 0;
  int column = 0;

  /// "mead.toml:14:9".
  [[nodiscard]] std::string text() const;
};

}  // namespace barm

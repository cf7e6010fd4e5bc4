#pragma once
#include <unistd.h>

#include <filesystem>
#include <stdexcept>
#include <string>

namespace barm::test {

/// A new empty folder of its own for a test, removed with all it holds.
class Folder {
 public:
  Folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "barm-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no folder: " + pattern);
    path_ = pattern;
  }

  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }

  [[nodiscard]] std::string operator/(const std::string& name) const { return path_ + "/" + name; }

  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

}  // namespace barm::test

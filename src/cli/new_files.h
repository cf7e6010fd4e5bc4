#pragma once
// The files a command writes beside its answer.
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace barm::cli {

/// Where a command writes: to new names, or with `replace` over files that are there, and never
/// over one it has read. Each is written whole under another name beside its own and then put in
/// place.
class NewFiles {
 public:
  NewFiles(bool replace, std::vector<std::string> read)
      : replace_(replace), taken_(std::move(read)) {}

  /// To be asked of all of them before any work is done; an empty name is no file. Errors:
  /// bad_input with what would be right.
  [[nodiscard]] Result<bool> plan(const std::string& path);

  /// Errors: bad_input when it was made by someone else in the meantime, unavailable (disk full, no
  /// right to write); nothing is half-written then.
  [[nodiscard]] Result<bool> write(const std::string& path, std::string_view bytes) const;

 private:
  bool replace_;
  std::vector<std::string> taken_;
};

}  // namespace barm::cli

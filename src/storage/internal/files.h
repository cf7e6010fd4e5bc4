#pragma once
// Small things about files that opening, copying and putting back need.
#include <filesystem>
#include <string>
#include <type_traits>
#include <utility>

#include "storage/internal/connection.h"

namespace barm::storage::internal {

/// Removes a file when the scope ends, if it is still there.
class RemovedAtEnd {
 public:
  explicit RemovedAtEnd(std::string path) : path_(std::move(path)) {}

  RemovedAtEnd(const RemovedAtEnd&) = delete;
  RemovedAtEnd& operator=(const RemovedAtEnd&) = delete;
  ~RemovedAtEnd();

  /// Leaves it there after all.
  void keep() { path_.clear(); }

 private:
  std::string path_;
};

/// Waits until a file or folder is on the disk; an empty name is the working folder.
void to_disk(const std::string& path);

/// Whole to `to`, of which nothing is seen before it is complete and on the disk; over an older
/// file of that name.
void keep_copy(Daybook::Connection& connection, const std::string& to);

/// The stem with what sets it apart from every file that is there: "FILE.before-restore-2".
[[nodiscard]] std::string free_name(const std::string& stem, const std::string& tail);

/// Gives a draft its name for good; false when a file has that name already.
[[nodiscard]] bool give_name(const std::string& draft, const std::string& name);

/// Runs f; the machine's own complaints about files become errors, as what guarded() catches does.
template <class F>
[[nodiscard]] auto with_files(const std::string& path, F f) -> Result<std::invoke_result_t<F>> {
  try {
    return guarded(path, std::move(f));
  } catch (const std::filesystem::filesystem_error& trouble) {
    return failure(ErrorCode::unavailable, path, trouble.code().message());
  }
}

[[nodiscard]] std::string backup_folder(const std::string& path);

/// "file:/a%20b".
[[nodiscard]] std::string as_uri(const std::string& path);

}  // namespace barm::storage::internal

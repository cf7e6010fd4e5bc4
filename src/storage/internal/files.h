#pragma once
// Small things about files that both opening and copying need.
#include <string>

#include "storage/internal/connection.h"

namespace barm::storage::internal {

/// Removes a file when the scope ends, if it is still there.
class RemovedAtEnd {
 public:
  explicit RemovedAtEnd(std::string path) : path_(std::move(path)) {}

  RemovedAtEnd(const RemovedAtEnd&) = delete;
  RemovedAtEnd& operator=(const RemovedAtEnd&) = delete;
  ~RemovedAtEnd();

 private:
  std::string path_;
};

/// Waits until a file or folder is on the disk; an empty name is the working folder.
void to_disk(const std::string& path);

/// Whole to `to`, of which nothing is seen before it is complete and on the disk; over an older
/// file of that name.
void keep_copy(Daybook::Connection& connection, const std::string& to);

[[nodiscard]] std::string backup_folder(const std::string& path);

/// "file:/a%20b".
[[nodiscard]] std::string as_uri(const std::string& path);

}  // namespace barm::storage::internal

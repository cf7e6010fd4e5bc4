#pragma once
// Zip files. The library stays in zip.cpp.
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "time/instant.h"

namespace barm::storage::internal {

/// A zip being written; nothing is seen under its name before close() has put all of it there.
class ZipWriter {
 public:
  /// Errors: bad_input when there is such a file, unavailable.
  [[nodiscard]] static Result<ZipWriter> make(const std::string& path, time::Instant now);

  /// The content is asked for when the zip is closed, one file at a time. `packed`: not pressed
  /// again.
  void add(const std::string& name, std::function<std::string()> content, bool packed = false);

  /// Errors: unavailable (disk full), or what a content threw.
  [[nodiscard]] Result<bool> close();

 private:
  struct Parts;

  explicit ZipWriter(std::shared_ptr<Parts> parts) : parts_(std::move(parts)) {}

  std::shared_ptr<Parts> parts_;
};

/// A zip being read, by names it declares to hold. Refuses what is made to do harm: a name that is
/// absolute, leaves the zip or stands in it twice, over 200 000 files, over 4 GB unpacked, one that
/// unpacks to more than it says.
class ZipReader {
 public:
  [[nodiscard]] static Result<ZipReader> open(const std::string& path);

  /// From bytes in memory; `name` is for errors.
  [[nodiscard]] static Result<ZipReader> of_bytes(std::string_view bytes, const std::string& name);

  [[nodiscard]] bool holds(const std::string& name) const;

  /// Errors: bad_input with zip:name (not there, larger than `most` bytes, broken).
  [[nodiscard]] Result<std::string> read(const std::string& name, std::uint64_t most) const;

 private:
  struct Parts;

  explicit ZipReader(std::shared_ptr<Parts> parts) : parts_(std::move(parts)) {}

  [[nodiscard]] static Result<ZipReader> looked_over(std::shared_ptr<Parts> parts);

  std::shared_ptr<Parts> parts_;
};

}  // namespace barm::storage::internal

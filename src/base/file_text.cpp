#include "base/file_text.h"

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <system_error>

namespace barm {

namespace {

std::string size_in_words(std::size_t bytes) {
  if (bytes % 1000000 == 0) return std::to_string(bytes / 1000000) + " MB";
  return std::to_string(bytes) + " bytes";
}

}  // namespace

Result<std::string> file_text(const std::string& path, std::size_t most) {
  std::error_code none;
  if (std::filesystem::is_directory(path, none))
    return failure(ErrorCode::not_found, path, "is a folder, not a file");
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(path.c_str(), "rbe"),
                                                             std::fclose);
  if (!file)
    return failure(ErrorCode::not_found, path, "there is no such file, or it cannot be read");
  std::string text;
  std::size_t got = 0;
  // A pipe does not say how long it is.
  while (got <= most && std::feof(file.get()) == 0 && std::ferror(file.get()) == 0) {
    constexpr std::size_t step = 65536;
    text.resize(got + std::min(step, most + 1 - got));
    got += std::fread(text.data() + got, 1, text.size() - got, file.get());
  }
  text.resize(got);
  if (std::ferror(file.get()) != 0)
    return failure(ErrorCode::not_found, path, "cannot be read to its end");
  if (got > most)
    return failure(
        ErrorCode::bad_input, path, "is over " + size_in_words(most) + ": that is no such file");
  return text;
}

}  // namespace barm

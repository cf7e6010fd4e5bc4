#include "storage/internal/zip.h"

#include <fmt/format.h>
#include <zip.h>

#include <algorithm>
#include <cstring>
#include <exception>
#include <filesystem>
#include <unordered_map>

#include "storage/internal/files.h"

namespace barm::storage::internal {

namespace {

constexpr std::uint64_t most_files = 200000;
constexpr std::uint64_t most_unpacked = std::uint64_t{4} << 30U;

// One file of a zip that is made when the library asks for it.
struct Lazy {
  std::function<std::string()> content;
  std::string bytes;
  std::size_t at = 0;
  std::int64_t time = 0;
  std::exception_ptr* trouble = nullptr;
};

zip_int64_t say(Lazy& file, void* to, zip_uint64_t length, zip_source_cmd_t command) {
  switch (command) {
    case ZIP_SOURCE_OPEN:
      file.bytes = file.content();
      file.at = 0;
      return 0;
    case ZIP_SOURCE_READ: {
      const std::size_t n = std::min<std::size_t>(length, file.bytes.size() - file.at);
      std::memcpy(to, file.bytes.data() + file.at, n);
      file.at += n;
      return static_cast<zip_int64_t>(n);
    }
    case ZIP_SOURCE_CLOSE:
      file.bytes = std::string();
      return 0;
    case ZIP_SOURCE_STAT: {
      auto* stat = static_cast<zip_stat_t*>(to);
      zip_stat_init(stat);
      stat->mtime = file.time;
      stat->valid = ZIP_STAT_MTIME;
      return sizeof(zip_stat_t);
    }
    case ZIP_SOURCE_ERROR:
      return zip_error_to_data(nullptr, to, length);
    case ZIP_SOURCE_SUPPORTS:
      return zip_source_make_command_bitmap(ZIP_SOURCE_OPEN,
                                            ZIP_SOURCE_READ,
                                            ZIP_SOURCE_CLOSE,
                                            ZIP_SOURCE_STAT,
                                            ZIP_SOURCE_ERROR,
                                            ZIP_SOURCE_FREE,
                                            -1);
    default:
      return 0;
  }
}

extern "C" zip_int64_t answer(void* user,
                              void* data,
                              zip_uint64_t length,
                              zip_source_cmd_t command) {
  auto* file = static_cast<Lazy*>(user);
  if (command == ZIP_SOURCE_FREE) {
    delete file;
    return 0;
  }
  if (command == ZIP_SOURCE_ERROR) {
    auto* codes = static_cast<int*>(data);
    codes[0] = ZIP_ER_INTERNAL;
    codes[1] = 0;
    return 2 * sizeof(int);
  }
  try {
    return say(*file, data, length, command);
  } catch (...) {
    *file->trouble = std::current_exception();
    return -1;
  }
}

std::string words_of(int code) {
  zip_error_t error;
  zip_error_init_with_code(&error, code);
  std::string words = zip_error_strerror(&error);
  zip_error_fini(&error);
  return words;
}

bool leaves(const std::string& name) {
  if (name.empty() || name.size() > 300 || name.front() == '/') return true;
  if (name.find('\\') != std::string::npos || name.find(':') != std::string::npos) return true;
  std::size_t begin = 0;
  while (begin <= name.size()) {
    const std::size_t end = std::min(name.find('/', begin), name.size());
    const std::string part = name.substr(begin, end - begin);
    if (part == ".." || part == ".") return true;
    begin = end + 1;
  }
  return false;
}

}  // namespace

struct ZipWriter::Parts {
  Parts() = default;
  Parts(const Parts&) = delete;
  Parts& operator=(const Parts&) = delete;

  ~Parts() {
    if (archive != nullptr) zip_discard(archive);
  }

  std::string path;
  time::Instant now;
  zip_t* archive = nullptr;
  std::exception_ptr trouble;
};

Result<ZipWriter> ZipWriter::make(const std::string& path, time::Instant now) {
  auto parts = std::make_shared<Parts>();
  parts->path = path;
  parts->now = now;
  int code = 0;
  parts->archive = zip_open(path.c_str(), ZIP_CREATE | ZIP_EXCL, &code);
  if (parts->archive != nullptr) return ZipWriter(std::move(parts));
  if (code == ZIP_ER_EXISTS)
    return failure(ErrorCode::bad_input, path, "is there already; name a new file");
  return failure(ErrorCode::unavailable, path, "cannot be written: " + words_of(code));
}

void ZipWriter::add(const std::string& name, std::function<std::string()> content, bool packed) {
  auto* file = new Lazy{std::move(content), {}, 0, parts_->now.seconds, &parts_->trouble};
  zip_source_t* source = zip_source_function(parts_->archive, answer, file);
  const zip_int64_t index = zip_file_add(parts_->archive, name.c_str(), source, ZIP_FL_ENC_UTF_8);
  if (index < 0) {
    zip_source_free(source);
    refuse(ErrorCode::bad_input, name, zip_strerror(parts_->archive));
  }
  if (packed)
    zip_set_file_compression(parts_->archive, static_cast<zip_uint64_t>(index), ZIP_CM_STORE, 0);
}

Result<bool> ZipWriter::close() {
  zip_t* archive = std::exchange(parts_->archive, nullptr);
  if (zip_close(archive) == 0) {
    to_disk(parts_->path);
    return true;
  }
  const std::string words = zip_strerror(archive);
  zip_discard(archive);
  if (parts_->trouble) std::rethrow_exception(parts_->trouble);
  return failure(ErrorCode::unavailable,
                 parts_->path,
                 "could not be written (" + words + "); look whether the disk is full");
}

struct ZipReader::Parts {
  Parts() = default;
  Parts(const Parts&) = delete;
  Parts& operator=(const Parts&) = delete;

  ~Parts() {
    if (archive != nullptr) zip_discard(archive);
  }

  std::string name;
  zip_t* archive = nullptr;
  std::unordered_map<std::string, std::uint64_t> index;
};

Result<ZipReader> ZipReader::looked_over(std::shared_ptr<Parts> parts) {
  const auto wrong = [&](const std::string& words) {
    return failure(ErrorCode::bad_input, parts->name, words);
  };
  const zip_int64_t files = zip_get_num_entries(parts->archive, 0);
  if (files < 0 || static_cast<std::uint64_t>(files) > most_files)
    return wrong("holds more than 200 000 files; that is no daybook");
  std::uint64_t unpacked = 0;
  for (zip_uint64_t i = 0; i < static_cast<zip_uint64_t>(files); ++i) {
    zip_stat_t stat;
    if (zip_stat_index(parts->archive, i, 0, &stat) != 0 || (stat.valid & ZIP_STAT_NAME) == 0 ||
        (stat.valid & ZIP_STAT_SIZE) == 0)
      return wrong("is a broken zip");
    const std::string name = stat.name;
    if (leaves(name)) return wrong("holds a file whose name leaves it: " + name.substr(0, 60));
    unpacked = stat.size > most_unpacked ? most_unpacked + 1 : unpacked + stat.size;
    if (unpacked > most_unpacked) return wrong("unpacks to more than 4 GB; that is no daybook");
    if (!parts->index.emplace(name, i).second)
      return wrong("holds a file twice: " + name.substr(0, 60));
  }
  return ZipReader(std::move(parts));
}

Result<ZipReader> ZipReader::open(const std::string& path) {
  auto parts = std::make_shared<Parts>();
  parts->name = path;
  int code = 0;
  parts->archive = zip_open(path.c_str(), ZIP_RDONLY, &code);
  if (parts->archive != nullptr) return looked_over(std::move(parts));
  if (code == ZIP_ER_NOENT) return failure(ErrorCode::not_found, path, "there is no such file");
  return failure(ErrorCode::bad_input, path, "is no zip: " + words_of(code));
}

Result<ZipReader> ZipReader::of_bytes(std::string_view bytes, const std::string& name) {
  auto parts = std::make_shared<Parts>();
  parts->name = name;
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
  if (source != nullptr) {
    parts->archive = zip_open_from_source(source, ZIP_RDONLY, &error);
    if (parts->archive == nullptr) zip_source_free(source);
  }
  const std::string words = zip_error_strerror(&error);
  zip_error_fini(&error);
  if (parts->archive == nullptr) return failure(ErrorCode::bad_input, name, "is no zip: " + words);
  return looked_over(std::move(parts));
}

bool ZipReader::holds(const std::string& name) const { return parts_->index.contains(name); }

Result<std::string> ZipReader::read(const std::string& name, std::uint64_t most) const {
  const auto wrong = [&](const std::string& words) {
    return failure(ErrorCode::bad_input, parts_->name + ":" + name, words);
  };
  const auto found = parts_->index.find(name);
  if (found == parts_->index.end()) return wrong("is missing");
  zip_stat_t stat;
  if (zip_stat_index(parts_->archive, found->second, 0, &stat) != 0) return wrong("is broken");
  if (stat.size > most) return wrong(fmt::format("is larger than {} bytes", most));
  zip_file_t* file = zip_fopen_index(parts_->archive, found->second, 0);
  if (file == nullptr)
    return wrong("cannot be read: " + std::string(zip_strerror(parts_->archive)));
  // One byte more than declared shows a file that lies about its size; the end also checks its sum.
  std::string bytes(stat.size + 1, '\0');
  zip_int64_t n = 0;
  std::size_t got = 0;
  while (got < bytes.size() && (n = zip_fread(file, bytes.data() + got, bytes.size() - got)) > 0)
    got += static_cast<std::size_t>(n);
  const bool broken = zip_fclose(file) != 0 || n < 0 || got != stat.size;
  if (broken) return wrong("is broken");
  bytes.resize(got);
  return bytes;
}

}  // namespace barm::storage::internal

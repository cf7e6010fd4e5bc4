#include "storage/archive.h"

#include <fmt/format.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "storage/internal/archive.h"
#include "storage/internal/epoch.h"
#include "storage/internal/files.h"
#include "storage/internal/json_list.h"
#include "storage/internal/picture.h"
#include "storage/internal/saving.h"
#include "storage/internal/tables.h"
#include "storage/internal/zip.h"
#include "storage/record_json.h"

namespace barm::storage {

namespace fs = std::filesystem;
using internal::refuse;
using internal::ZipReader;
using internal::ZipWriter;
using nlohmann::json;

namespace {

constexpr const char* schema = "barm.daybook-export/1";
constexpr std::uint64_t most_table = std::uint64_t{256} << 20U;
constexpr std::uint64_t most_bake = 1000000;
constexpr std::uint64_t most_picture = 30000000;
constexpr std::uint64_t most_about = 1000000;
constexpr std::int64_t most_revision = 1000000000;  // one a second for thirty years

constexpr const char* read_me =
    "A daybook of barm, for people and for programs.\r\n"
    "\r\n"
    "bakes/*.toml      the bake files as they are; bakes/versions/ as they were\r\n"
    "*.csv             tables: readings, feedings, bottles, marks, remarks, scales, photos\r\n"
    "*.json            bakes, cultures, loaves, settings, test bakes, equipment with all their\r\n"
    "                  fields\r\n"
    "photos/*.jpg      the pictures, and small ones\r\n"
    "daybook.json      how many of each there are\r\n"
    "\r\n"
    "Moments are UTC. A ' before a text that begins with = + - @ keeps a spreadsheet from\r\n"
    "running it; it is taken off again by  barm daybook import.\r\n";

// Flat notes are tables, what has parts of its own is JSON.
template <class T>
constexpr bool is_table =
    !(std::is_same_v<T, Bake> || std::is_same_v<T, Culture> || std::is_same_v<T, Loaf> ||
      std::is_same_v<T, Setting> || std::is_same_v<T, TestBake> || std::is_same_v<T, TestMember> ||
      std::is_same_v<T, Equipment>);

template <class T>
std::string file_of() {
  return internal::table<T>() + (is_table<T> ? ".csv" : ".json");
}

std::string slug(const std::string& title) {
  std::string words;
  for (const char c : title.substr(0, 60)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    const bool capital = c >= 'A' && c <= 'Z';
    if (plain || capital) {
      words += capital ? static_cast<char>(c - 'A' + 'a') : c;
    } else if (!words.empty() && words.back() != '-') {
      words += '-';
    }
  }
  while (words.ends_with('-')) words.pop_back();
  return words.empty() ? "bake" : words;
}

template <class T>
T value_or_throw(Result<T> result) {
  if (!result) throw internal::LeaveTransaction{result.error()};
  return std::move(*result);
}

void add_text(ZipWriter& zip, const std::string& name, std::string text) {
  zip.add(name, [text = std::move(text)] { return text; });
}

// The bake's own file, and a file for each version that was different.
json with_files(ZipWriter& zip, Daybook& daybook, const Bake& bake) {
  json object = to_json(bake);
  object.erase("toml");
  const std::string file = fmt::format("bakes/{}-{}.toml", slug(bake.title), bake.id);
  object["file"] = file;
  add_text(zip, file, bake.toml);
  json versions = json::array();
  for (const BakeVersion& version : value_or_throw(daybook.history(bake.id))) {
    json entry = to_json(version);
    entry.erase("toml");
    entry.erase("bake");
    const bool as_it_is = version.toml == bake.toml;
    entry["file"] =
        as_it_is ? file : fmt::format("bakes/versions/{}/{}.toml", bake.id, version.revision);
    if (!as_it_is) add_text(zip, entry["file"], version.toml);
    versions.push_back(std::move(entry));
  }
  object["versions"] = std::move(versions);
  return object;
}

void add_picture(ZipWriter& zip, Daybook& daybook, const std::string& id) {
  zip.add(
      fmt::format("photos/{}.jpg", id),
      [&daybook, id] { return value_or_throw(daybook.picture(id)); },
      true);
  zip.add(
      fmt::format("photos/{}-small.jpg", id),
      [&daybook, id] { return value_or_throw(daybook.thumbnail(id)); },
      true);
}

template <class T>
std::size_t add_kind(ZipWriter& zip, Daybook& daybook) {
  const auto records = internal::every<T>(daybook.connection());
  if constexpr (is_table<T>) {
    add_text(zip, file_of<T>(), internal::to_csv(records));
  } else {
    json list = json::array();
    for (const T& record : records) {
      if constexpr (std::is_same_v<T, Bake>) {
        list.push_back(with_files(zip, daybook, record));
      } else {
        list.push_back(to_json(record));
      }
    }
    add_text(zip, file_of<T>(), list.dump(1) + "\n");
  }
  if constexpr (std::is_same_v<T, Photo>) {
    for (const Photo& photo : records) add_picture(zip, daybook, photo.id);
  }
  return records.size();
}

// ---- reading it back

[[noreturn]] void wrong(const std::string& where, const std::string& words) {
  refuse(ErrorCode::bad_input, where, words);
}

std::string text_at(const json& object, const char* key, const std::string& file) {
  const auto found = object.find(key);
  if (found == object.end() || !found->is_string())
    wrong(file, fmt::format("'{}' is missing", key));
  return found->get<std::string>();
}

// What each bake had beside its fields.
struct BakeFiles {
  Bake bake;
  std::vector<BakeVersion> versions;
};

// A version was a bake once; its revision is one the bake has had.
void need_possible(const BakeVersion& version, const Bake& bake, const std::string& file) {
  const std::string place = fmt::format("{} {} version {}", file, bake.id, version.revision);
  if (version.revision < 1 || version.revision > bake.revision)
    wrong(place, fmt::format("a revision from 1 to {}, that of the bake", bake.revision));
  Bake as_it_was = bake;
  as_it_was.state = "draft";  // it may have been no more than that
  as_it_was.title = version.title;
  as_it_was.toml = version.toml;
  const auto found = internal::wrong_with(as_it_was);
  if (found) refuse(found->code, place + " " + found->where, found->message);
}

std::vector<BakeVersion> versions_of(const ZipReader& zip,
                                     const json& list,
                                     const Bake& bake,
                                     const std::string& file) {
  if (!list.is_array()) wrong(file, "'versions' is a list");
  std::vector<BakeVersion> versions;
  for (const json& entry : list) {
    if (!entry.is_object()) wrong(file, "a version is an object");
    const auto saved_at = time::parse_instant(text_at(entry, "saved_at", file));
    const auto revision = entry.find("revision");
    if (!saved_at || revision == entry.end() || !revision->is_number_integer())
      wrong(file, "a version has a revision and a moment saved_at");
    BakeVersion version{bake.id,
                        revision->get<std::int64_t>(),
                        *saved_at,
                        text_at(entry, "title", file),
                        value_or_throw(zip.read(text_at(entry, "file", file), most_bake))};
    need_possible(version, bake, file);
    versions.push_back(std::move(version));
  }
  return versions;
}

BakeFiles bake_of(const ZipReader& zip, json& object, const std::string& file) {
  if (!object.is_object()) wrong(file, "a bake is an object");
  const std::string toml = text_at(object, "file", file);
  const json versions = object.value("versions", json::array());
  object.erase("file");
  object.erase("versions");
  object["toml"] = value_or_throw(zip.read(toml, most_bake));
  BakeFiles files{value_or_throw(from_json<Bake>(object)), {}};
  files.versions = versions_of(zip, versions, files.bake, file);
  return files;
}

template <class T>
void put_back(Daybook::Connection& connection, const T& record, const std::string& file) {
  const auto found = internal::wrong_with(record);
  if (found)
    refuse(found->code, fmt::format("{} {} {}", file, record.id, found->where), found->message);
  if (record.revision < 1 || record.revision > most_revision)
    wrong(fmt::format("{} {} revision", file, record.id),
          fmt::format("a whole number from 1 to {}", most_revision));
  if (internal::exists(connection, internal::Shape<T>::kind, record.id))
    wrong(fmt::format("{} {}", file, record.id), "stands there twice");
  try {
    internal::write_row(connection, record);
  } catch (const SQLite::Exception&) {
    try {
      internal::refuse_missing_owner(connection, record);
    } catch (const internal::LeaveTransaction& missing) {
      wrong(fmt::format("{} {} {}", file, record.id, missing.error.where), missing.error.message);
    }
    throw;
  }
}

void put_picture_back(Daybook::Connection& connection, const ZipReader& zip, const Photo& photo) {
  const auto read = [&](const std::string& file) {
    std::string bytes = value_or_throw(zip.read(file, most_picture));
    const auto size = internal::own_jpeg_size(bytes);
    if (!size) wrong(file, "is no JPEG of ours");
    return std::pair(std::move(bytes), *size);
  };
  const std::string file = fmt::format("photos/{}.jpg", photo.id);
  const auto [picture, size] = read(file);
  if (photo.width_px != size.width || photo.height_px != size.height ||
      photo.size_bytes != static_cast<std::int64_t>(picture.size()))
    wrong(file,
          fmt::format("has {} x {} pixels in {} bytes; photo.csv says something else",
                      size.width,
                      size.height,
                      picture.size()));
  const auto [thumbnail, small] = read(fmt::format("photos/{}-small.jpg", photo.id));
  internal::write_picture(connection, photo.id, picture, thumbnail);
}

void put_bake_back(Daybook::Connection& connection,
                   const ZipReader& zip,
                   json& object,
                   const std::string& file) {
  const BakeFiles files = bake_of(zip, object, file);
  put_back(connection, files.bake, file);
  for (const BakeVersion& version : files.versions) internal::keep_version(connection, version);
}

// One record after the other, so that a table takes no more memory than its text.
template <class T>
std::size_t put_kind_back(Daybook::Connection& connection, const ZipReader& zip) {
  const std::string file = file_of<T>();
  const std::string text = value_or_throw(zip.read(file, most_table));
  if constexpr (is_table<T>) {
    return value_or_throw(internal::from_csv<T>(text, file, [&](const T& record) {
      put_back(connection, record, file);
      if constexpr (std::is_same_v<T, Photo>) put_picture_back(connection, zip, record);
    }));
  } else {
    return internal::each_of_list(text, file, [&](json& object) {
      if constexpr (std::is_same_v<T, Bake>) {
        put_bake_back(connection, zip, object, file);
      } else {
        put_back(connection, value_or_throw(from_json<T>(object)), file);
      }
    });
  }
}

// What the exports of an older barm know nothing of.
template <class T>
bool came_later(const json& about, const ZipReader& zip) {
  return std::is_same_v<T, Equipment> && !zip.holds(file_of<T>()) && about.contains("counts") &&
         about["counts"].is_object() && !about["counts"].contains(internal::table<T>());
}

void need_counts(const json& about, const std::string& kind, std::size_t found) {
  const auto counts = about.find("counts");
  if (counts == about.end() || !counts->is_object() || !counts->contains(kind) ||
      !(*counts)[kind].is_number_integer() || (*counts)[kind] != found)
    wrong("daybook.json",
          fmt::format("says another number of {} records than the {} that are there", kind, found));
}

}  // namespace

namespace internal {

void put_all_back(Daybook& daybook, const ZipReader& zip) {
  const json about =
      parsed_json(value_or_throw(zip.read("daybook.json", most_about)), "daybook.json");
  if (!about.is_object() || about.value("schema", json()) != schema)
    wrong("daybook.json", fmt::format("is no export of a daybook this program reads ({})", schema));
  const auto done = written(daybook.connection(), [&] {
    each_kind([&](const auto& empty) {
      using T = std::decay_t<decltype(empty)>;
      if (came_later<T>(about, zip)) return;
      need_counts(about, table<T>(), put_kind_back<T>(daybook.connection(), zip));
    });
    return true;
  });
  if (!done) throw LeaveTransaction{done.error()};
}

}  // namespace internal

Result<std::string> export_to(Daybook& daybook, const std::string& path, time::Instant now) {
  auto zip = ZipWriter::make(path, now);
  if (!zip) return failure(zip);
  return internal::guarded(path, [&] {
    // One transaction for reading, so that all parts are of the same moment.
    SQLite::Transaction moment(daybook.connection().database);
    const auto odd = value_or_throw(daybook.odd_records());
    if (!odd.empty())
      wrong(daybook.path(), "cannot be exported before this is mended: " + odd.front());
    json counts = json::object();
    add_text(*zip, "READ-ME.txt", read_me);
    internal::each_kind([&](const auto& empty) {
      using T = std::decay_t<decltype(empty)>;
      counts[internal::table<T>()] = add_kind<T>(*zip, daybook);
    });
    const json about = {{"schema", schema}, {"exported_at", now.text()}, {"counts", counts}};
    add_text(*zip, "daybook.json", about.dump(1) + "\n");
    value_or_throw(zip->close());
    return path;
  });
}

Result<std::string> import_from(const std::string& zip_path, const std::string& path) {
  const auto zip = ZipReader::open(zip_path);
  if (!zip) return failure(zip);
  if (fs::exists(path))
    return failure(ErrorCode::bad_input, path, "is there already; name a new file");
  return internal::guarded(path, [&] {
    const std::string draft = path + ".new-" + internal::new_id();
    const internal::RemovedAtEnd remove(draft);
    {
      auto daybook = value_or_throw(Daybook::open(draft, {.create = true}));
      internal::put_all_back(daybook, *zip);
      internal::begin_epoch(daybook.connection(), 0);
      const auto faults = value_or_throw(daybook.check());
      if (!faults.empty()) wrong(zip_path, faults.front());
    }
    internal::to_disk(draft);
    if (!internal::give_name(draft, path)) wrong(path, "is there already; name a new file");
    return path;
  });
}

namespace {

constexpr std::size_t most_differences = 10;

// Records of one kind by id; then the pictures and versions that belong to them.
class Comparison {
 public:
  Comparison(Daybook& one, Daybook& other) : one_(one), other_(other) {}

  template <class T>
  void compare() {
    const auto mine = internal::every<T>(one_.connection());
    const auto yours = internal::every<T>(other_.connection());
    const std::string kind = internal::words(internal::Shape<T>::kind);
    if (mine.size() != yours.size())
      say(fmt::format("{} {} records, {} in the other", mine.size(), kind, yours.size()));
    for (std::size_t i = 0; i < std::min(mine.size(), yours.size()); ++i) {
      if (!(mine[i] == yours[i])) {
        say(fmt::format("{} {} is not the same", kind, mine[i].id));
        continue;
      }
      if constexpr (std::is_same_v<T, Bake>) compare_versions(mine[i].id);
      if constexpr (std::is_same_v<T, Photo>) compare_pictures(mine[i].id);
    }
  }

  [[nodiscard]] const std::vector<std::string>& said() const { return said_; }

 private:
  void say(std::string words) {
    if (said_.size() < most_differences) said_.push_back(std::move(words));
  }

  void compare_versions(const std::string& id) {
    if (value_or_throw(one_.history(id)) != value_or_throw(other_.history(id)))
      say(fmt::format("the versions of bake {} are not the same", id));
  }

  void compare_pictures(const std::string& id) {
    if (value_or_throw(one_.picture(id)) != value_or_throw(other_.picture(id)) ||
        value_or_throw(one_.thumbnail(id)) != value_or_throw(other_.thumbnail(id)))
      say(fmt::format("the picture of photo {} is not the same", id));
  }

  Daybook& one_;
  Daybook& other_;
  std::vector<std::string> said_;
};

}  // namespace

Result<std::vector<std::string>> differences(Daybook& one, Daybook& other) {
  return internal::guarded(one.path(), [&] {
    Comparison comparison(one, other);
    internal::each_kind(
        [&](const auto& empty) { comparison.compare<std::decay_t<decltype(empty)>>(); });
    return comparison.said();
  });
}

}  // namespace barm::storage

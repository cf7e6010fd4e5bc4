// Any bytes at all as an export to import: a zip, or, by the first byte, one of its tables, its
// JSON, a picture, or a text that people type. They are taken or refused, and never a crash, a hang
// or a file outside.
#include <unistd.h>

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv.h"
#include "base/require.h"
#include "storage/daybook.h"
#include "storage/internal/archive.h"
#include "storage/internal/columns.h"
#include "storage/internal/connection.h"
#include "storage/internal/csv.h"
#include "storage/internal/picture.h"
#include "storage/internal/tables.h"
#include "storage/record_json.h"
#include "typed_texts.h"

namespace {

using namespace barm::storage;
using barm::require;

// One for the whole run, emptied again after an import that succeeds.
Daybook& empty_daybook() {
  static Daybook daybook = [] {
    const auto path = std::filesystem::temp_directory_path() /
                      ("barm-import-fuzz-" + std::to_string(getpid()) + ".barm");
    auto opened = Daybook::open(path.string(), {.create = true});
    require(opened.has_value(), "a daybook to import into");
    return std::move(*opened);
  }();
  return daybook;
}

void zip(std::string_view bytes) {
  const auto reader = internal::ZipReader::of_bytes(bytes, "fuzz.zip");
  if (!reader) {
    require(!reader.error().message.empty(), "a refusal has words");
    return;
  }
  Daybook& daybook = empty_daybook();
  try {
    internal::put_all_back(daybook, *reader);
    internal::each_kind([&](const auto& empty) {
      daybook.connection().database.exec("DELETE FROM " +
                                         internal::table<std::decay_t<decltype(empty)>>());
    });
  } catch (const internal::LeaveTransaction& refused) {
    require(!refused.error.message.empty(), "a refusal has words");
  }
}

template <class T>
std::optional<std::vector<T>> records_of(std::string_view text) {
  std::vector<T> records;
  const auto read =
      internal::from_csv<T>(text, "fuzz.csv", [&](const T& record) { records.push_back(record); });
  return read ? std::optional(records) : std::nullopt;
}

template <class T>
void table(std::string_view text) {
  const auto records = records_of<T>(text);
  if (!records) return;
  require(records_of<T>(internal::to_csv(*records)) == records,
          "what was read is written and read the same");
}

template <class T>
void object(std::string_view text) {
  const auto parsed = nlohmann::json::parse(text, nullptr, false);
  if (parsed.is_discarded()) return;
  const auto record = from_json<T>(parsed);
  if (!record) return;
  const auto again = from_json<T>(to_json(*record));
  require(again.has_value() && *again == *record, "what was read is written and read the same");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string_view rest(reinterpret_cast<const char*>(data) + 1, size - 1);
  switch (data[0]) {
    case 'r':
      table<ReadingRecord>(rest);
      break;
    case 'b':
      table<Bottle>(rest);
      break;
    case 'B':
      object<Bake>(rest);
      break;
    case 'l':
      object<Loaf>(rest);
      break;
    case 'p':
      static_cast<void>(internal::orientation(std::string(rest)));
      static_cast<void>(internal::make_pictures(std::string(rest)));
      break;
    case 'c':
      for (const barm::csv::Row& row : barm::csv::table_of(rest).rows)
        require(!row.empty() && row.front().line > 0, "a row holds a cell that stands somewhere");
      break;
    case 'm':
      barm::fuzz::prices(rest);
      break;
    case 'a':
      barm::fuzz::answers(rest);
      break;
    case 'h':
      barm::fuzz::readings(rest);
      break;
    default:
      zip({reinterpret_cast<const char*>(data), size});
  }
  return 0;
}

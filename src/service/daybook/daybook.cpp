#include "service/daybook/daybook.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "base/letters.h"
#include "service/bake/mixed_line.h"
#include "service/internal/object.h"
#include "storage/record_json.h"

namespace barm::service {

using internal::object;
using nlohmann::json;
using storage::Daybook;
using storage::Kind;

namespace {

constexpr const char* file_name = "bake";

constexpr std::array<std::pair<Kind, const char*>, 14> plurals{{{Kind::bake, "bakes"},
                                                                {Kind::culture, "cultures"},
                                                                {Kind::feeding, "feedings"},
                                                                {Kind::bottle, "bottles"},
                                                                {Kind::reading, "readings"},
                                                                {Kind::mark, "marks"},
                                                                {Kind::photo, "photos"},
                                                                {Kind::loaf, "loaves"},
                                                                {Kind::scale, "scales"},
                                                                {Kind::remark, "remarks"},
                                                                {Kind::setting, "settings"},
                                                                {Kind::test_bake, "test-bakes"},
                                                                {Kind::test_member, "test-members"},
                                                                {Kind::equipment, "equipment"}}};

// The day and time at which its file says it is mixed.
std::optional<time::Instant> mixed_in_file(const std::string& toml, const Now& now) {
  const auto read = formula::parse_bake(toml, file_name);
  if (!read || !read->mixed_at || !read->mixed_at->date) return std::nullopt;
  return now.zone.instant(*read->mixed_at);
}

// The title as the file has it. Of two moments of mixing the one that was typed last holds, here
// and in the file: so the form, the list and the forecast say the same.
Result<storage::Bake> with_its_file(storage::Bake bake,
                                    const std::optional<storage::Bake>& before,
                                    const Now& now) {
  if (bake.state == "draft") return bake;
  const auto read = formula::parse_bake(bake.toml, file_name);
  if (!read) return failure(read);
  if (!read->name.empty()) bake.title = read->name;
  const auto in_file = mixed_in_file(bake.toml, now);
  const auto was_in_file = before ? mixed_in_file(before->toml, now) : std::nullopt;
  const bool as_before =
      before && before->mixed_at && bake.mixed_at && *bake.mixed_at == *before->mixed_at;
  const bool ticked = bake.mixed_at && !as_before;
  if (!ticked && in_file && (in_file != was_in_file || !bake.mixed_at || bake.state == "planned"))
    bake.mixed_at = in_file;
  if (bake.state == "live" && !bake.mixed_at) bake.mixed_at = now.at;
  if (bake.mixed_at) bake.toml = mixed_at(bake.toml, now.zone.local(*bake.mixed_at));
  return bake;
}

// The record that is about to be saved over; nothing for a new one.
std::optional<storage::Bake> stored_before(Daybook& daybook, const std::string& id) {
  if (id.empty()) return std::nullopt;
  auto stored = daybook.get<storage::Bake>(id);
  return stored ? std::optional(std::move(*stored)) : std::nullopt;
}

Result<std::vector<storage::Mark>> marks_of(Daybook& daybook, const std::string& bake) {
  storage::Query of_bake;
  of_bake.owner = bake;
  return daybook.list<storage::Mark>(of_bake);
}

template <class T>
Result<T> merged(Daybook& daybook, const json& object) {
  if (!object.is_object()) return storage::from_json<T>(object);
  const auto id = object.find("id");
  json whole = object;
  if (id != object.end() && id->is_string()) {
    const auto stored = daybook.get<T>(id->template get<std::string>());
    if (!stored && stored.error().code != ErrorCode::not_found) return failure(stored);
    if (stored) {
      whole = storage::to_json(*stored);
      whole.update(object);
    }
  }
  // A change must say from which revision it started; without one it never goes over another's.
  if (object.find("revision") == object.end()) whole["revision"] = 0;
  return storage::from_json<T>(whole);
}

constexpr std::int64_t clocks_differ_s = 120;  // a little, and nobody minds

/// A device whose clock is ahead would write what has not happened yet.
Result<storage::ReadingRecord> not_ahead(storage::ReadingRecord reading, const Now& now) {
  if (reading.at <= now.at + clocks_differ_s) return reading;
  return failure(ErrorCode::bad_input,
                 "at",
                 fmt::format("{} is ahead of this machine's clock, which says {}: put the device's "
                             "clock right, or the hour of the reading",
                             reading.at.text(),
                             now.at.text()));
}

// An oven is asked for by its name: no two of a kind have the same.
Result<storage::Equipment> one_of_its_name(Daybook& daybook, storage::Equipment one) {
  const auto fine = check_equipment(one);
  if (!fine) return failure(fine);
  const auto house = house_of(daybook);
  if (!house) return failure(house);
  for (const storage::Equipment& other : *house) {
    if (other.id != one.id && other.what == one.what &&
        small_letters(other.title) == small_letters(one.title))
      return failure(
          ErrorCode::bad_input,
          "title",
          fmt::format(
              "another {} is called '{}' already: choose another name", one.what, other.title));
  }
  return one;
}

template <class T>
Result<T> prepared(Daybook& daybook, const json& object, const Now& now) {
  auto record = merged<T>(daybook, object);
  if constexpr (std::is_same_v<T, storage::Equipment>) {
    if (record) return one_of_its_name(daybook, std::move(*record));
  }
  if constexpr (std::is_same_v<T, storage::ReadingRecord>) {
    if (record) return not_ahead(std::move(*record), now);
  }
  if constexpr (std::is_same_v<T, storage::Bake>) {
    if (record) {
      const auto before = stored_before(daybook, record->id);
      return with_its_file(std::move(*record), before, now);
    }
  }
  static_cast<void>(now);
  return record;
}

}  // namespace

Result<storage::Bake> save_bake(Daybook& daybook, storage::Bake bake, const Now& now) {
  const auto before = stored_before(daybook, bake.id);
  auto whole = with_its_file(std::move(bake), before, now);
  if (!whole) return failure(whole);
  return daybook.save(std::move(*whole), now.at);
}

Result<storage::Equipment> save_equipment(Daybook& daybook,
                                          storage::Equipment one,
                                          const Now& now) {
  auto fine = one_of_its_name(daybook, std::move(one));
  if (!fine) return failure(fine);
  return daybook.save(std::move(*fine), now.at);
}

Result<formula::Bake> stored_bake(const storage::Bake& record,
                                  const std::vector<storage::Mark>& marks,
                                  const Inventory& house,
                                  const Now& now) {
  auto bake = formula::parse_bake(record.toml, file_name);
  if (!bake) return failure(bake);
  if (record.mixed_at) {
    bake->clock.emplace(*record.mixed_at, now.zone);
    bake->mixed_at = now.zone.local(*record.mixed_at);
  }
  for (const storage::Mark& mark : marks) {
    if (mark.what != "weigh" || !mark.poured_g) continue;
    const auto at = bake->find(mark.of);
    if (at) bake->bowl[*at].weighed = *mark.poured_g * gram;
  }
  return at_home(std::move(*bake), house, now.zone);
}

Result<formula::Bake> stored_bake(Daybook& daybook, const std::string& id, const Now& now) {
  const auto record = daybook.get<storage::Bake>(id);
  if (!record) return failure(record);
  const auto marks = marks_of(daybook, id);
  if (!marks) return failure(marks);
  const auto house = house_of(daybook);
  if (!house) return failure(house);
  return stored_bake(*record, *marks, *house, now);
}

Result<formula::Bake> unsaved_bake(Daybook& daybook,
                                   const std::string& id,
                                   std::string toml,
                                   const Now& now) {
  const auto before = daybook.get<storage::Bake>(id);
  if (!before) return failure(before);
  storage::Bake record = *before;
  record.toml = std::move(toml);
  const auto whole = with_its_file(std::move(record), *before, now);
  if (!whole) return failure(whole);
  const auto marks = marks_of(daybook, id);
  if (!marks) return failure(marks);
  const auto house = house_of(daybook);
  if (!house) return failure(house);
  return stored_bake(*whole, *marks, *house, now);
}

Result<json> save_record(Daybook& daybook, Kind kind, const json& object, const Now& now) {
  return storage::with_record_of(kind, [&](const auto& empty) -> Result<json> {
    using T = std::decay_t<decltype(empty)>;
    auto record = prepared<T>(daybook, object, now);
    if (!record) return failure(record);
    const auto saved = daybook.save(std::move(*record), now.at);
    if (!saved) return failure(saved);
    return storage::to_json(*saved);
  });
}

Result<json> save_records(Daybook& daybook, Kind kind, const json& list, const Now& now) {
  if (!list.is_array()) return failure(ErrorCode::bad_input, plural(kind), "a list of records");
  return storage::with_record_of(kind, [&](const auto& empty) -> Result<json> {
    using T = std::decay_t<decltype(empty)>;
    std::vector<T> records;
    for (std::size_t i = 0; i < list.size(); ++i) {
      auto record = prepared<T>(daybook, list[i], now);
      if (!record)
        return failure(record.error().code,
                       fmt::format("{}[{}].{}", plural(kind), i, record.error().where),
                       record.error().message);
      records.push_back(std::move(*record));
    }
    const auto saved = daybook.save_all(std::move(records), now.at);
    if (!saved) return failure(saved);
    json answer = json::array();
    for (const T& record : *saved) answer.push_back(storage::to_json(record));
    return answer;
  });
}

Result<json> get_record(Daybook& daybook, Kind kind, const std::string& id) {
  return storage::with_record_of(kind, [&](const auto& empty) -> Result<json> {
    using T = std::decay_t<decltype(empty)>;
    const auto record = daybook.get<T>(id);
    if (!record) return failure(record);
    return storage::to_json(*record);
  });
}

Result<json> list_records(Daybook& daybook, Kind kind, const storage::Query& query) {
  const std::string key = plural(kind);
  const auto total = daybook.count(kind, query);
  if (!total) return failure(total);
  json answer = object({{"schema", "barm." + key + "/1"}, {"total", *total}});
  json& list = answer[key] = json::array();
  if (kind == Kind::bake) {
    const auto lines = daybook.list_bakes(query);
    if (!lines) return failure(lines);
    for (const storage::BakeLine& line : *lines) list.push_back(storage::to_json(line));
    return answer;
  }
  return storage::with_record_of(kind, [&](const auto& empty) -> Result<json> {
    using T = std::decay_t<decltype(empty)>;
    const auto records = daybook.list<T>(query);
    if (!records) return failure(records);
    for (const T& record : *records) list.push_back(storage::to_json(record));
    return answer;
  });
}

std::string plural(Kind kind) {
  const auto* const found = std::find_if(
      plurals.begin(), plurals.end(), [&](const auto& entry) { return entry.first == kind; });
  return found == plurals.end() ? "" : found->second;
}

std::optional<Kind> kind_of_plural(const std::string& words) {
  for (const auto& [kind, word] : plurals) {
    if (words == word) return kind;
  }
  return std::nullopt;
}

}  // namespace barm::service

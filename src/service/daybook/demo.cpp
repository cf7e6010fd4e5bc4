#include "service/daybook/demo.h"

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

#include "base/require.h"
#include "generated/demo_texts.h"
#include "service/daybook/daybook.h"
#include "service/daybook/demo_photo.h"

namespace barm::service {

using nlohmann::json;

namespace {

std::string_view text_of(std::string_view name) {
  const auto* const found =
      std::find_if(std::begin(texts::demo), std::end(texts::demo), [&](const texts::Text& text) {
        return text.name == name;
      });
  require(found != std::end(texts::demo), "the demonstration names a file that is not there");
  return found->text;
}

// A whole number at the front of a text, which is taken off.
int take_number(std::string_view& text) {
  if (text.starts_with('+')) text.remove_prefix(1);
  int number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  require(error == std::errc(), "a moment of the demonstration is now-5h or day+1T05:30");
  text.remove_prefix(static_cast<std::size_t>(end - text.data()));
  return number;
}

// "now-5h", "now+30min" or "day+1T05:30"; nothing for any other text. What lies ahead is planned,
// as bakers plan: to the quarter of an hour.
std::optional<time::Instant> counted(std::string_view text, const Now& now) {
  if (text.starts_with("now+") || text.starts_with("now-")) {
    text.remove_prefix(3);
    const int number = take_number(text);
    const time::Instant at = now.at + std::int64_t{number} * (text == "min" ? 60 : 3600);
    return number > 0 ? time::to_nearest(time::seconds_a_quarter, at) : at;
  }
  if (text.starts_with("day+")) {
    text.remove_prefix(3);
    const time::Instant noon = now.zone.noon(now.at, take_number(text));
    return moment_of(now.zone.day(noon).text() + std::string(text), now.zone);
  }
  return std::nullopt;
}

json record_of(json record, const Now& now) {
  record.erase("kind");
  for (auto& [key, value] : record.items()) {
    const auto moment =
        value.is_string() ? counted(value.get_ref<const std::string&>(), now) : std::nullopt;
    if (moment) value = moment->text();
  }
  if (record.contains("file")) {
    record["toml"] = text_of(record["file"].get<std::string>());
    record.erase("file");
  }
  if (record.contains("value_file")) {
    record["value"] = text_of(record["value_file"].get<std::string>());
    record.erase("value_file");
  }
  return record;
}

// The file's own day of mixing is another than the demonstration's, so it is left out.
std::string without_a_day(const std::string& toml) {
  std::string kept;
  std::size_t begin = 0;
  while (begin < toml.size()) {
    const std::size_t end = std::min(toml.find('\n', begin), toml.size() - 1) + 1;
    const std::string line = toml.substr(begin, end - begin);
    if (!line.starts_with("mixed = ")) kept += line;
    begin = end;
  }
  return kept;
}

// Where a photo would stand there is a drawing.
Result<storage::Photo> hang_up(storage::Daybook& daybook, const json& record, const Now& now) {
  storage::Photo photo;
  photo.id = record["id"];
  photo.loaf = record["loaf"];
  photo.taken_at = *counted(record["taken_at"].get<std::string>(), now);
  photo.caption = record["caption"];
  return daybook.add_photo(photo, drawn_loaf(), now.at);
}

json demo_records() { return json::parse(text_of("bakery.json"))["records"]; }

Result<int> write_demo(storage::Daybook& daybook, const Now& now) {
  int saved = 0;
  for (const json& written : demo_records()) {
    const auto kind = storage::kind_of(written["kind"].get<std::string>());
    require(kind.has_value(), "the demonstration has a kind of record that is none");
    ++saved;
    json record = record_of(written, now);
    // What was looked at and thrown away before comes back with the hours of today.
    const auto before = get_record(daybook, *kind, record["id"].get<std::string>());
    if (before && !(*before)["deleted_at"].is_null()) {
      const auto back = daybook.undo(*kind, record["id"].get<std::string>(), now.at);
      if (!back) return failure(back);
      record["revision"] = back->revision;
    }
    if (*kind == storage::Kind::photo) {
      if (before) continue;
      const auto hung = hang_up(daybook, written, now);
      if (!hung) return failure(hung);
      continue;
    }
    if (record.contains("toml")) record["toml"] = without_a_day(record["toml"].get<std::string>());
    const auto done = save_record(daybook, *kind, record, now);
    if (!done) return failure(done);
  }
  return saved;
}

}  // namespace

Result<int> fill_with_demo(storage::Daybook& daybook, const Now& now) {
  const auto there = daybook.last_change();
  if (!there) return failure(there);
  const auto bakes = daybook.count(storage::Kind::bake);
  if (!bakes) return failure(bakes);
  if (*there > 0 || *bakes > 0)
    return failure(
        ErrorCode::bad_input, daybook.path(), "is not empty; the demonstration needs a new file");
  return write_demo(daybook, now);
}

Result<int> look_round(storage::Daybook& daybook, const Now& now) {
  const auto bakes = daybook.count(storage::Kind::bake);
  if (!bakes) return failure(bakes);
  if (*bakes > 0)
    return failure(ErrorCode::bad_input,
                   "the daybook",
                   "holds bakes of its own; an invented bakery stands in an empty one alone");
  return write_demo(daybook, now);
}

Result<int> end_look_round(storage::Daybook& daybook, const Now& now) {
  int removed = 0;
  json records = demo_records();
  std::reverse(records.begin(), records.end());  // what belongs to another goes before it
  for (const json& written : records) {
    const auto kind = storage::kind_of(written["kind"].get<std::string>());
    require(kind.has_value(), "the demonstration has a kind of record that is none");
    const std::string id = written["id"].get<std::string>();
    const auto there = get_record(daybook, *kind, id);
    if (!there || !(*there)["deleted_at"].is_null()) continue;
    const auto gone = daybook.remove(*kind, id, 0, now.at);
    if (!gone) return failure(gone);
    ++removed;
  }
  return removed;
}

}  // namespace barm::service

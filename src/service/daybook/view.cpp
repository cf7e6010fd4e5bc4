#include "service/daybook/view.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/letters.h"
#include "service/internal/object.h"
#include "storage/record_json.h"

namespace barm::service {

using internal::object;
using nlohmann::json;
using storage::Daybook;

namespace {

template <class T>
Result<bool> read_owned(Daybook& daybook, const std::string& bake, std::vector<T>& to) {
  storage::Query of_bake;
  of_bake.owner = bake;
  auto found = daybook.list<T>(of_bake);
  if (!found) return failure(found);
  to = std::move(*found);
  return true;
}

template <class T>
json all(const std::vector<T>& records) {
  json list = json::array();
  for (const T& record : records) list.push_back(storage::to_json(record));
  return list;
}

}  // namespace

Result<BakesAnswer> bakes(Daybook& daybook, const storage::Query& query, const Now& now) {
  const auto total = daybook.count(storage::Kind::bake, query);
  if (!total) return failure(total);
  auto lines = daybook.list_bakes(query);
  if (!lines) return failure(lines);
  return BakesAnswer{*total, std::move(*lines), now.zone};
}

Result<storage::Bake> find_bake(Daybook& daybook, const std::string& words) {
  auto by_id = daybook.get<storage::Bake>(words);
  if (by_id || by_id.error().code != ErrorCode::not_found) return by_id;
  storage::Query query;
  query.text = words;
  const auto lines = daybook.list_bakes(query);
  if (!lines) return failure(lines);
  std::vector<storage::Bake> found;
  for (const storage::BakeLine& line : *lines) {
    if (line.bake.title == words) return daybook.get<storage::Bake>(line.bake.id);
    if (small_letters(line.bake.title).find(small_letters(words)) != std::string::npos)
      found.push_back(line.bake);
  }
  if (found.empty())
    return failure(ErrorCode::not_found, words, "no bake of the daybook is called so");
  if (found.size() == 1) return daybook.get<storage::Bake>(found.front().id);
  std::string near;
  for (std::size_t i = 0; i < found.size() && i < 8; ++i)
    near += fmt::format("{}{} ({})", near.empty() ? "" : ", ", found[i].id, found[i].title);
  return failure(
      ErrorCode::bad_input, words, fmt::format("more than one; name it by its id: {}", near));
}

Result<BakeView> view_bake(Daybook& daybook, const std::string& words, const Now& now) {
  auto bake = find_bake(daybook, words);
  if (!bake) return failure(bake);
  BakeView view;
  view.zone = now.zone;
  view.bake = std::move(*bake);
  const std::string& id = view.bake.id;
  for (const auto& done : {read_owned(daybook, id, view.readings),
                           read_owned(daybook, id, view.marks),
                           read_owned(daybook, id, view.loaves),
                           read_owned(daybook, id, view.remarks),
                           read_owned(daybook, id, view.photos)}) {
    if (!done) return failure(done);
  }
  auto versions = daybook.history(id);
  if (!versions) return failure(versions);
  view.versions = std::move(*versions);
  return view;
}

Result<TrashAnswer> trash(Daybook& daybook, const Now& now) {
  auto deleted = daybook.trash();
  if (!deleted) return failure(deleted);
  return TrashAnswer{std::move(*deleted), now.zone};
}

Result<CheckAnswer> check(Daybook& daybook) {
  CheckAnswer answer;
  answer.path = daybook.path();
  auto faults = daybook.check();
  if (!faults) return failure(faults);
  answer.faults = std::move(*faults);
  if (!answer.faults.empty()) return answer;
  auto odd = daybook.odd_records();
  if (!odd) return failure(odd);
  answer.faults = std::move(*odd);
  for (const auto& [kind, to] : {std::pair{storage::Kind::bake, &answer.bakes},
                                 std::pair{storage::Kind::reading, &answer.readings},
                                 std::pair{storage::Kind::photo, &answer.photos}}) {
    const auto number = daybook.count(kind);
    if (!number) return failure(number);
    *to = *number;
  }
  return answer;
}

json to_json(const BakesAnswer& answer) {
  return object(
      {{"schema", "barm.bakes/1"}, {"total", answer.total}, {"bakes", all(answer.lines)}});
}

json to_json(const BakeView& view) {
  return object({{"schema", "barm.bake_view/1"},
                 {"bake", storage::to_json(view.bake)},
                 {"readings", all(view.readings)},
                 {"marks", all(view.marks)},
                 {"loaves", all(view.loaves)},
                 {"remarks", all(view.remarks)},
                 {"photos", all(view.photos)},
                 {"versions", all(view.versions)}});
}

json to_json(const TrashAnswer& answer) {
  return object({{"schema", "barm.trash/1"}, {"deleted", all(answer.deleted)}});
}

json to_json(const Done& done) {
  json out = object({{"schema", "barm.done/1"}, {"done", done.words}});
  if (!done.id.empty()) out["id"] = done.id;
  return out;
}

json to_json(const CheckAnswer& answer) {
  return object({{"schema", "barm.daybook_check/1"},
                 {"daybook", answer.path},
                 {"faults", answer.faults},
                 {"bakes", answer.bakes},
                 {"readings", answer.readings},
                 {"photos", answer.photos}});
}

}  // namespace barm::service

#include "storage/record_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "storage/internal/fields.h"

namespace barm::storage {

using nlohmann::json;

namespace {

json value_of(const std::string& value) { return value; }

json value_of(double value) { return value; }

json value_of(std::int64_t value) { return value; }

json value_of(time::Instant value) { return value.text(); }

json value_of(const std::vector<std::string>& value) { return value; }

json value_of(const std::map<std::string, double>& value) { return value; }

template <class T>
json value_of(const std::optional<T>& value) {
  return value ? value_of(*value) : json(nullptr);
}

// Each reads a value of its type; otherwise what would be right.
const char* take(const json& from, std::string& to) {
  if (!from.is_string()) return "a text";
  to = from.get<std::string>();
  return nullptr;
}

const char* take(const json& from, double& to) {
  if (!from.is_number() || !std::isfinite(from.get<double>())) return "a number";
  to = from.get<double>();
  return nullptr;
}

const char* take(const json& from, std::int64_t& to) {
  if (!from.is_number_integer()) return "a whole number";
  if (from.is_number_unsigned() &&
      from.get<std::uint64_t>() > static_cast<std::uint64_t>(INT64_MAX))
    return "a smaller whole number";
  to = from.get<std::int64_t>();
  return nullptr;
}

const char* take(const json& from, time::Instant& to) {
  const auto moment =
      from.is_string() ? time::parse_instant(from.get_ref<const std::string&>()) : std::nullopt;
  if (!moment) return "a moment such as 2026-11-28T06:00:00Z";
  to = *moment;
  return nullptr;
}

const char* take(const json& from, std::vector<std::string>& to) {
  constexpr const char* right = "a list of texts";
  if (!from.is_array()) return right;
  to.clear();
  for (const json& item : from) {
    if (!item.is_string()) return right;
    to.push_back(item.get<std::string>());
  }
  return nullptr;
}

const char* take(const json& from, std::map<std::string, double>& to) {
  constexpr const char* right = "a table of numbers";
  if (!from.is_object()) return right;
  to.clear();
  for (const auto& [key, item] : from.items()) {
    if (!item.is_number()) return right;
    to[key] = item.get<double>();
  }
  return nullptr;
}

template <class T>
const char* take(const json& from, std::optional<T>& to) {
  to.reset();
  if (from.is_null()) return nullptr;
  T value{};
  const char* remedy = take(from, value);
  if (remedy == nullptr) to = std::move(value);
  return remedy;
}

template <class T, class F>
void each_key(T& record, const F& f) {
  f("id", record.id);
  f("revision", record.revision);
  f("saved_at", record.saved_at);
  f("deleted_at", record.deleted_at);
  internal::each_field(record, f);
}

}  // namespace

template <class T>
json to_json(const T& record) {
  json object = json::object();
  each_key(record, [&](const char* key, const auto& value) { object[key] = value_of(value); });
  return object;
}

template <class T>
Result<T> from_json(const json& object) {
  const std::string kind(name(internal::Shape<T>::kind));
  if (!object.is_object())
    return failure(ErrorCode::bad_input, kind, "an object with the fields of a " + kind);
  T record;
  std::size_t known = 0;
  std::optional<Error> wrong;
  each_key(record, [&](const char* key, auto& value) {
    const auto found = object.find(key);
    if (found == object.end()) return;
    ++known;
    const char* remedy = take(*found, value);
    if (remedy != nullptr && !wrong) wrong = Error{ErrorCode::bad_input, key, remedy};
  });
  if (wrong) return tl::unexpected<Error>(*wrong);
  if (known == object.size()) return record;
  for (const auto& [key, ignored] : object.items()) {
    bool is_field = false;
    each_key(record, [&, k = key](const char* field, const auto&) { is_field |= k == field; });
    if (!is_field) return failure(ErrorCode::bad_input, key, "a " + kind + " has no such field");
  }
  return record;
}

json to_json(const BakeLine& line) {
  json object = to_json(line.bake);
  object.erase("toml");
  object["readings"] = line.readings;
  object["last_reading"] = value_of(line.last_reading);
  object["photo"] = value_of(line.photo);
  return object;
}

json to_json(const BakeVersion& version) {
  return {{"bake", version.bake},
          {"revision", version.revision},
          {"saved_at", version.saved_at.text()},
          {"title", version.title},
          {"toml", version.toml}};
}

json to_json(const Change& change) {
  return {{"number", change.number},
          {"kind", name(change.kind)},
          {"id", change.id},
          {"revision", change.revision},
          {"what", change.what},
          {"at", change.at.text()}};
}

json to_json(const Deleted& deleted) {
  return {{"kind", name(deleted.kind)},
          {"id", deleted.id},
          {"title", deleted.title},
          {"deleted_at", deleted.deleted_at.text()}};
}

// NOLINTBEGIN(bugprone-macro-parentheses): a type cannot stand in them
#define BARM_INSTANTIATE(T)        \
  template json to_json(const T&); \
  template Result<T> from_json(const json&);

// NOLINTEND(bugprone-macro-parentheses)

BARM_EACH_RECORD(BARM_INSTANTIATE)
#undef BARM_INSTANTIATE

}  // namespace barm::storage

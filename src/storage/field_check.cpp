#include "storage/internal/field_check.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/visible.h"

namespace barm::storage::internal {

namespace {

// UTF-8 without a zero byte.
bool is_text(std::string_view value) {
  while (!value.empty()) {
    const std::size_t length = value.front() == '\0' ? 0 : character_length(value);
    if (length == 0) return false;
    value.remove_prefix(length);
  }
  return true;
}

}  // namespace

FieldCheck& FieldCheck::text(const char* field, const std::string& value, std::size_t most) {
  if (value.size() > most) return wrong(field, fmt::format("at most {} bytes", most));
  if (!is_text(value)) return wrong(field, "no text: not UTF-8, or with a zero byte");
  return *this;
}

FieldCheck& FieldCheck::title(const char* field, const std::string& value) {
  if (value.empty()) return wrong(field, "needs a few words");
  return text(field, value, title_bytes);
}

FieldCheck& FieldCheck::range(const char* field,
                              std::optional<double> value,
                              double low,
                              double high) {
  if (!value || (*value >= low && *value <= high)) return *this;
  return wrong(field, fmt::format("a number from {} to {}", low, high));
}

FieldCheck& FieldCheck::range(const char* field,
                              std::optional<double> value,
                              Readable range_of_it) {
  return range(field, value, range_of_it.low, range_of_it.high);
}

FieldCheck& FieldCheck::id(const char* field, const std::string& value) {
  const bool good =
      !value.empty() && value.size() <= 64 && std::all_of(value.begin(), value.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
               c == '-' || c == '_';
      });
  return good ? *this : wrong(field, "an id is 1 to 64 of A-Z a-z 0-9 - _");
}

FieldCheck& FieldCheck::id(const char* field, const std::optional<std::string>& value) {
  return value ? id(field, *value) : *this;
}

FieldCheck& FieldCheck::moment(const char* field, std::optional<time::Instant> value) {
  constexpr std::int64_t year_1900 = -2208988800;
  constexpr std::int64_t year_2200 = 7258118400;
  if (!value || (value->seconds >= year_1900 && value->seconds < year_2200)) return *this;
  return wrong(field, "a moment such as 2026-11-28T06:00:00Z");
}

FieldCheck& FieldCheck::one_of(const char* field,
                               const std::string& value,
                               std::initializer_list<std::string_view> words) {
  if (std::find(words.begin(), words.end(), value) != words.end()) return *this;
  std::string all;
  for (const std::string_view word : words) all += (all.empty() ? "" : ", ") + std::string(word);
  return wrong(field, "one of " + all);
}

FieldCheck& FieldCheck::that(bool good, const char* field, const std::string& remedy) {
  return good ? *this : wrong(field, remedy);
}

FieldCheck& FieldCheck::wrong(const char* field, const std::string& remedy) {
  if (!error_) error_ = Error{ErrorCode::bad_input, field, remedy};
  return *this;
}

}  // namespace barm::storage::internal

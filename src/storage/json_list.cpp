#include "storage/internal/json_list.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "storage/internal/connection.h"

namespace barm::storage::internal {

namespace {

constexpr int deepest = 16;
constexpr std::size_t most_parts = 200000;
constexpr std::size_t most_records = 2000000;
constexpr std::string_view blank = " \t\r\n";

[[noreturn]] void wrong_json(const std::string& where, const std::string& words) {
  refuse(ErrorCode::bad_input, where, words);
}

// The text of one value from the left, up to the comma or bracket behind it.
class ValueText {
 public:
  explicit ValueText(const std::string& where) : where_(where) {}

  [[nodiscard]] std::string_view of(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size() && !ends_before(text[at])) look_at(text[at++]);
    return text.substr(0, at);
  }

 private:
  [[nodiscard]] bool ends_before(char c) const {
    return !in_text_ && depth_ == 0 && (c == ',' || c == ']' || c == '}');
  }

  void look_at(char c) {
    if (in_text_) {
      in_text_ = escaped_ || c != '"';
      escaped_ = !escaped_ && c == '\\';
      return;
    }
    in_text_ = c == '"';
    if (c == '[' || c == '{') ++depth_;
    if (c == ']' || c == '}') --depth_;
    if (c == ',' || c == '[' || c == '{') ++parts_;
    if (depth_ > deepest) wrong_json(where_, fmt::format("is nested deeper than {}", deepest));
    if (parts_ > most_parts) wrong_json(where_, fmt::format("has over {} parts", most_parts));
  }

  const std::string& where_;
  bool in_text_ = false;
  bool escaped_ = false;
  int depth_ = 0;
  std::size_t parts_ = 0;
};

nlohmann::json parsed_slice(std::string_view text, const std::string& where) {
  try {
    return nlohmann::json::parse(text);
  } catch (const nlohmann::json::exception& trouble) {
    wrong_json(where, fmt::format("is no JSON: {}", trouble.what()));
  }
}

void skip_blank(std::string_view& text) {
  text.remove_prefix(std::min(text.find_first_not_of(blank), text.size()));
}

bool take_char(std::string_view& text, char c) {
  skip_blank(text);
  if (!text.starts_with(c)) return false;
  text.remove_prefix(1);
  return true;
}

}  // namespace

nlohmann::json parsed_json(std::string_view text, const std::string& file) {
  const std::string_view value = ValueText(file).of(text);
  if (value.size() < text.size()) wrong_json(file, "is no JSON: something stands behind it");
  return parsed_slice(text, file);
}

std::size_t each_of_list(std::string_view text,
                         const std::string& file,
                         const std::function<void(nlohmann::json&)>& take) {
  if (!take_char(text, '[')) wrong_json(file, "is a list of records");
  std::size_t records = 0;
  for (bool more = !take_char(text, ']'); more;) {
    const std::string where = fmt::format("{} record {}", file, ++records);
    if (records > most_records) wrong_json(where, "is one too many; that is no daybook");
    const std::string_view value = ValueText(where).of(text);
    nlohmann::json record = parsed_slice(value, where);
    text.remove_prefix(value.size());
    take(record);
    more = take_char(text, ',');
    if (!more && !take_char(text, ']')) wrong_json(where, "is no JSON: the list does not end");
  }
  skip_blank(text);
  if (!text.empty()) wrong_json(file, "is no JSON: something stands behind the list");
  return records;
}

}  // namespace barm::storage::internal

#pragma once
// The body of a request as JSON, read field by field. What cannot be throws Refused with the
// field's path; keys that nobody asked for are refused at the end.
//
//     Fields fields(body);
//     const auto warm = fields.number("temperature_C", 0, 45, "a dough's temperature such as 24");
//     fields.check_all_taken();
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "server/wire/exchange.h"

namespace barm::server {

/// JSON whose objects keep the order of their keys.
using Json = nlohmann::ordered_json;

/// The text as JSON. Throws Refused: not JSON, not UTF-8, nested deeper than 32, a key that stands
/// twice in an object, a number too large to hold.
[[nodiscard]] Json parse_json(std::string_view text);

/// Any JSON as the text of a reply; bytes that are no UTF-8 are replaced.
[[nodiscard]] std::string written(const nlohmann::json& json);

/// That as a whole reply.
[[nodiscard]] Reply answered(const nlohmann::json& json, int status = 200);

/// A step of a JSON pointer, with ~ and / escaped (RFC 6901).
[[nodiscard]] std::string pointer_step(std::string_view key);

/// Throws the refusal of a field.
[[noreturn]] void refuse_field(const std::string& field, const std::string& message);

/// The members of an object.
class Fields {
 public:
  /// Throws Refused when it is no object. `at` is its JSON pointer.
  explicit Fields(const Json& object, std::string at = "");

  [[nodiscard]] std::string pointer(std::string_view key) const;

  /// The member, or nothing when it is left out or null.
  [[nodiscard]] const Json* find(const std::string& key);

  /// A number from `low` to `high`; `what` says what would be right.
  [[nodiscard]] std::optional<double> number(const std::string& key,
                                             double low,
                                             double high,
                                             const std::string& what);
  [[nodiscard]] std::optional<long long> whole(const std::string& key,
                                               long long low,
                                               long long high,
                                               const std::string& what);
  [[nodiscard]] std::optional<std::string> text(const std::string& key, const std::string& what);
  /// True or false; false when it is left out.
  [[nodiscard]] bool yes(const std::string& key);
  /// One text or more, at most `most`.
  [[nodiscard]] std::vector<std::string> texts(const std::string& key,
                                               const std::string& what,
                                               std::size_t most = 100);

  /// Refuses a field that is left out.
  template <class T>
  [[nodiscard]] T needed(std::optional<T> value,
                         const std::string& key,
                         const std::string& what) const {
    if (!value) refuse_field(pointer(key), what);
    return std::move(*value);
  }

  /// Refuses members that nobody asked for.
  void check_all_taken() const;

 private:
  const Json& object_;
  std::string at_;
  std::set<std::string> taken_;
};

}  // namespace barm::server

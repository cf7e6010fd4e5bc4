#pragma once
// JSON objects written down field by field.
#include <cstddef>
#include <initializer_list>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace barm::service::internal {

/// A name and what it is; what is not known is null. The library's own lists make a constructor of
/// every pair of types and unmake every value where one may throw: half of what compiling an
/// answer took.
class Field {
 public:
  Field(const char* name, bool value);
  Field(const char* name, int value);
  Field(const char* name, long value);
  Field(const char* name, unsigned value);
  Field(const char* name, unsigned long value);
  Field(const char* name, double value);
  Field(const char* name, const char* value);
  Field(const char* name, std::string_view value);
  Field(const char* name, std::string value);
  Field(const char* name, std::nullptr_t);
  Field(const char* name, nlohmann::json value);
  Field(const char* name, const std::vector<std::string>& value);
  Field(const char* name, const std::optional<double>& value);
  Field(const char* name, const std::optional<std::string>& value);
  ~Field();
  Field(const Field&) = delete;
  Field& operator=(const Field&) = delete;

 private:
  friend nlohmann::json object(std::initializer_list<Field> fields);

  const char* name_;
  mutable nlohmann::json value_;  // moved out of a list, whose fields are constant
};

[[nodiscard]] nlohmann::json object(std::initializer_list<Field> fields);

}  // namespace barm::service::internal

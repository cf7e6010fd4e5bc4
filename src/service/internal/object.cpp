#include "service/internal/object.h"

#include <utility>

namespace barm::service::internal {

using nlohmann::json;

Field::Field(const char* name, bool value) : name_(name), value_(value) {}

Field::Field(const char* name, int value) : name_(name), value_(value) {}

Field::Field(const char* name, long value) : name_(name), value_(value) {}

Field::Field(const char* name, unsigned value) : name_(name), value_(value) {}

Field::Field(const char* name, unsigned long value) : name_(name), value_(value) {}

Field::Field(const char* name, double value) : name_(name), value_(value) {}

Field::Field(const char* name, const char* value) : name_(name), value_(value) {}

Field::Field(const char* name, std::string_view value) : name_(name), value_(value) {}

Field::Field(const char* name, std::string value) : name_(name), value_(std::move(value)) {}

Field::Field(const char* name, std::nullptr_t) : name_(name) {}

Field::Field(const char* name, json value) : name_(name), value_(std::move(value)) {}

Field::Field(const char* name, const std::vector<std::string>& value)
    : name_(name), value_(value) {}

Field::Field(const char* name, const std::optional<double>& value)
    : name_(name), value_(value ? json(*value) : json()) {}

Field::Field(const char* name, const std::optional<std::string>& value)
    : name_(name), value_(value ? json(*value) : json()) {}

Field::~Field() = default;

json object(std::initializer_list<Field> fields) {
  json out = json::object();
  for (const Field& field : fields) out.emplace(field.name_, std::move(field.value_));
  return out;
}

}  // namespace barm::service::internal

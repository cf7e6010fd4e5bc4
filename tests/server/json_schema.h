#pragma once
// Holds a JSON value against a schema of the contract: as much of JSON Schema as the contract uses,
// and no more. A keyword that it does not know is a fault, so that nothing is passed over.
#include <nlohmann/json.hpp>
#include <regex>
#include <string>
#include <vector>

namespace barm::test {

class JsonSchema {
 public:
  explicit JsonSchema(const nlohmann::json& document) : document_(document) {}

  /// What is wrong with the value, each with its JSON pointer; empty when nothing is. `closed`:
  /// members that the schema does not name are wrong too.
  [[nodiscard]] std::vector<std::string> faults(const nlohmann::json& schema,
                                                const nlohmann::json& value,
                                                bool closed = true) const {
    std::vector<std::string> out;
    check(schema, value, "", closed, out);
    return out;
  }

  [[nodiscard]] const nlohmann::json& resolved(const nlohmann::json& schema) const {
    if (!schema.contains("$ref")) return schema;
    const auto text = schema.at("$ref").get<std::string>();
    return resolved(document_.at(nlohmann::json::json_pointer(text.substr(1))));
  }

 private:
  using Json = nlohmann::json;

  static bool has_type(const Json& value, const std::string& type) {
    if (type == "null") return value.is_null();
    if (type == "boolean") return value.is_boolean();
    if (type == "string") return value.is_string();
    if (type == "number") return value.is_number();
    if (type == "integer") return value.is_number_integer();
    if (type == "object") return value.is_object();
    if (type == "array") return value.is_array();
    throw std::logic_error("no such type: " + type);
  }

  static bool has_one_type(const Json& value, const Json& types) {
    if (types.is_string()) return has_type(value, types);
    for (const Json& type : types) {
      if (has_type(value, type)) return true;
    }
    return false;
  }

  void check(const Json& given,
             const Json& value,
             const std::string& at,
             bool closed,
             std::vector<std::string>& out) const {
    const Json& schema = resolved(given);
    for (const auto& [keyword, rule] : schema.items()) {
      const auto wrong = [&, &word = keyword](const std::string& what) {
        out.push_back((at.empty() ? "/" : at) + ": " + word + ": " + what);
      };
      if (keyword == "description" || keyword == "default" || keyword == "format") continue;
      if (keyword == "type") {
        if (!has_one_type(value, rule)) wrong("is " + value.dump().substr(0, 80));
      } else if (keyword == "const") {
        if (value != rule) wrong("is " + value.dump());
      } else if (keyword == "enum") {
        if (std::find(rule.begin(), rule.end(), value) == rule.end()) wrong("is " + value.dump());
      } else if (keyword == "minimum") {
        if (value.is_number() && value < rule) wrong("is " + value.dump());
      } else if (keyword == "maximum") {
        if (value.is_number() && value > rule) wrong("is " + value.dump());
      } else if (keyword == "maxLength") {
        if (value.is_string() && value.get_ref<const std::string&>().size() > rule)
          wrong("too long");
      } else if (keyword == "minItems") {
        if (value.is_array() && value.size() < rule) wrong("too few");
      } else if (keyword == "maxItems") {
        if (value.is_array() && value.size() > rule) wrong("too many");
      } else if (keyword == "pattern") {
        if (value.is_string() &&
            !std::regex_search(value.get<std::string>(), std::regex(rule.get<std::string>())))
          wrong("is " + value.dump());
      } else if (keyword == "required") {
        for (const Json& key : rule) {
          if (value.is_object() && !value.contains(key.get<std::string>())) wrong(key);
        }
      } else if (keyword == "items") {
        for (std::size_t i = 0; value.is_array() && i < value.size(); ++i)
          check(rule, value[i], at + "/" + std::to_string(i), closed, out);
      } else if (keyword == "anyOf") {
        check_any(rule, value, at, closed, out);
      } else if (keyword != "properties" && keyword != "additionalProperties") {
        throw std::logic_error("the test does not know the keyword " + keyword);
      }
    }
    if (value.is_object()) check_members(schema, value, at, closed, out);
  }

  void check_any(const Json& choices,
                 const Json& value,
                 const std::string& at,
                 bool closed,
                 std::vector<std::string>& out) const {
    std::vector<std::string> all;
    for (const Json& choice : choices) {
      std::vector<std::string> faults;
      check(choice, value, at, closed, faults);
      if (faults.empty()) return;
      all.insert(all.end(), faults.begin(), faults.end());
    }
    out.insert(out.end(), all.begin(), all.end());
  }

  void check_members(const Json& schema,
                     const Json& value,
                     const std::string& at,
                     bool closed,
                     std::vector<std::string>& out) const {
    if (!schema.contains("properties") && !schema.contains("additionalProperties")) return;
    for (const auto& [key, member] : value.items()) {
      const std::string place = at + "/" + key;
      if (schema.contains("properties") && schema.at("properties").contains(key)) {
        check(schema.at("properties").at(key), member, place, closed, out);
      } else if (schema.contains("additionalProperties")) {
        check(schema.at("additionalProperties"), member, place, closed, out);
      } else if (closed) {
        out.push_back(place + ": is not in the contract");
      }
    }
  }

  const Json& document_;
};

}  // namespace barm::test

#include "service/bake/form.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "formula/read.h"

namespace barm::service {

using Json = nlohmann::ordered_json;

namespace {

constexpr int deepest = 6;

struct Stopped {
  Error error;
};

[[noreturn]] void stop(const std::string& pointer, const std::string& message) {
  throw Stopped{{ErrorCode::bad_input, pointer, message}};
}

std::string step(const std::string& key) {
  std::string out = "/";
  for (const char c : key) out += c == '~' ? "~0" : c == '/' ? "~1" : std::string(1, c);
  return out;
}

// --- object to text ---

std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (byte < 0x20 || byte == 0x7F) {
      out += fmt::format("\\u{:04X}", byte);
    } else {
      out += c;
    }
  }
  return out + '"';
}

std::string key_text(const std::string& key) {
  const bool bare = !key.empty() && std::all_of(key.begin(), key.end(), [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_';
  });
  return bare ? key : quoted(key);
}

bool is_list_of_tables(const Json& value) {
  return value.is_array() && !value.empty() && value.front().is_object();
}

/// Writes one member a line, tables after plain members as TOML wants it.
class Writer {
 public:
  WrittenBake write(const Json& form) {
    members(form, "", "", 0);
    return std::move(out_);
  }

 private:
  void line(const std::string& text, const std::string& pointer) {
    out_.text += text + '\n';
    out_.pointers.push_back(pointer);
  }

  void blank() {
    if (!out_.text.empty()) line("", "");
  }

  void members(const Json& table, const std::string& path, const std::string& at, int depth) {
    if (depth > deepest) stop(at, "is nested too deeply for a bake");
    for (const auto& [key, value] : table.items()) {
      const std::string pointer = at + step(key);
      if (!value.is_object() && !is_list_of_tables(value))
        line(key_text(key) + " = " + plain(value, pointer, depth), pointer);
    }
    for (const auto& [key, value] : table.items()) {
      const std::string pointer = at + step(key);
      const std::string name = path.empty() ? key_text(key) : path + '.' + key_text(key);
      if (value.is_object()) {
        blank();
        line('[' + name + ']', pointer);
        members(value, name, pointer, depth + 1);
      } else if (is_list_of_tables(value)) {
        list(value, name, pointer, depth);
      }
    }
  }

  void list(const Json& tables, const std::string& name, const std::string& pointer, int depth) {
    std::size_t index = 0;
    for (const Json& table : tables) {
      const std::string at = fmt::format("{}/{}", pointer, index++);
      if (!table.is_object()) stop(at, "is no object, as the one before it is");
      blank();
      line("[[" + name + "]]", at);
      members(table, name, at, depth + 1);
    }
  }

  std::string plain(const Json& value, const std::string& pointer, int depth) {
    if (depth > deepest) stop(pointer, "is nested too deeply for a bake");
    if (value.is_string()) return quoted(value.get<std::string>());
    if (value.is_boolean()) return value.get<bool>() ? "true" : "false";
    if (value.is_number_integer()) return value.dump();
    if (value.is_number()) return number(value.get<double>());
    if (value.is_null()) stop(pointer, "is null: leave the key out instead");
    std::string out = "[";
    std::size_t index = 0;
    for (const Json& item : value) {
      const std::string at = fmt::format("{}/{}", pointer, index);
      if (item.is_object()) stop(at, "is an object, unlike the first of the list");
      out += (index++ == 0 ? "" : ", ") + plain(item, at, depth + 1);
    }
    return out + ']';
  }

  // TOML tells 2 from 2.0: a number with a point keeps it.
  static std::string number(double value) {
    std::string text = fmt::format("{}", value);
    if (text.find_first_of(".en") == std::string::npos) text += ".0";
    return text;
  }

  WrittenBake out_;
};

// --- text to object ---

std::string local_text(const toml::date& date) {
  return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
}

std::string local_text(const toml::time& time) {
  return fmt::format("{:02}:{:02}", time.hour, time.minute);
}

Json json_of(const toml::node& node);

// toml++ sorts by key; a baker's order is that of the file.
Json json_of(const toml::table& table) {
  struct Member {
    const toml::key* key;
    const toml::node* value;
  };

  std::vector<Member> members;
  for (auto&& [key, value] : table) members.push_back({&key, &value});
  std::stable_sort(members.begin(), members.end(), [](const Member& a, const Member& b) {
    const auto& from = a.key->source().begin;
    const auto& to = b.key->source().begin;
    return std::pair(from.line, from.column) < std::pair(to.line, to.column);
  });
  Json out = Json::object();
  for (const Member& member : members) out[std::string(member.key->str())] = json_of(*member.value);
  return out;
}

Json json_of(const toml::node& node) {
  if (const auto* table = node.as_table()) return json_of(*table);
  if (const auto* list = node.as_array()) {
    Json out = Json::array();
    for (const toml::node& item : *list) out.push_back(json_of(item));
    return out;
  }
  if (const auto* text = node.as_string()) return text->get();
  if (const auto* whole = node.as_integer()) return whole->get();
  if (const auto* real = node.as_floating_point()) return real->get();
  if (const auto* truth = node.as_boolean()) return truth->get();
  if (const auto* date = node.as_date()) return local_text(date->get());
  if (const auto* time = node.as_time()) return local_text(time->get());
  const auto* moment = node.as_date_time();
  return local_text(moment->get().date) + 'T' + local_text(moment->get().time);
}

}  // namespace

Result<WrittenBake> bake_text(const Json& form) {
  if (!form.is_object()) return failure(ErrorCode::bad_input, "", "a bake is an object or text");
  try {
    return Writer().write(form);
  } catch (const Stopped& stopped) {
    return tl::unexpected<Error>(stopped.error);
  }
}

Result<Json> bake_form(std::string_view text, const std::string& file) {
  // What is a bake is TOML as well, and nested no deeper than a bake may be.
  const auto bake = formula::parse_bake(text, file);
  if (!bake) return failure(bake);
  return json_of(toml::parse(text));
}

}  // namespace barm::service

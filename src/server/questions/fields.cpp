#include "server/questions/fields.h"

#include <fmt/format.h>

#include <cmath>

#include "base/error.h"
#include "server/door/problem.h"

namespace barm::server {

namespace {

constexpr int deepest = 32;  // objects and lists in one another

[[noreturn]] void refuse_text(const std::string& message) {
  throw Refused{problem(Refusal::bad_request, message)};
}

// Builds the tree while it watches what the library lets pass: depth, double keys.
class DepthWatch {
 public:
  bool operator()(int depth, Json::parse_event_t event, Json& parsed) {
    if (depth >= deepest) refuse_text(fmt::format("the body is nested deeper than {}", deepest));
    if (event == Json::parse_event_t::object_start) keys_.emplace_back();
    if (event == Json::parse_event_t::object_end) keys_.pop_back();
    if (event == Json::parse_event_t::key &&
        !keys_.back().insert(parsed.get_ref<const std::string&>()).second) {
      refuse_text(fmt::format("the key \"{}\" stands twice in one object",
                              parsed.get_ref<const std::string&>().substr(0, 60)));
    }
    return true;
  }

 private:
  std::vector<std::set<std::string>> keys_;
};

}  // namespace

Json parse_json(std::string_view text) {
  DepthWatch watch;
  try {
    return Json::parse(text, [&](int depth, Json::parse_event_t event, Json& parsed) {
      return watch(depth, event, parsed);
    });
  } catch (const Json::parse_error& error) {
    refuse_text(fmt::format("the body is not JSON: it goes wrong at byte {}", error.byte));
  } catch (const Json::out_of_range&) {
    refuse_text("the body holds a number that is too large");
  }
}

std::string written(const nlohmann::json& json) {
  return json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

Reply answered(const nlohmann::json& json, int status) {
  Reply reply;
  reply.status = status;
  reply.body = written(json);
  return reply;
}

std::string pointer_step(std::string_view key) {
  std::string out = "/";
  for (const char c : key) {
    if (c == '~') {
      out += "~0";
    } else if (c == '/') {
      out += "~1";
    } else {
      out += c;
    }
  }
  return out;
}

void refuse_field(const std::string& field, const std::string& message) {
  throw Refused{problem(Error{ErrorCode::bad_input, "", message}, field)};
}

Fields::Fields(const Json& object, std::string at) : object_(object), at_(std::move(at)) {
  if (!object.is_object()) refuse_field(at_, "a JSON object is wanted here");
}

std::string Fields::pointer(std::string_view key) const { return at_ + pointer_step(key); }

const Json* Fields::find(const std::string& key) {
  taken_.insert(key);
  const auto found = object_.find(key);
  return found == object_.end() || found->is_null() ? nullptr : &*found;
}

std::optional<double> Fields::number(const std::string& key,
                                     double low,
                                     double high,
                                     const std::string& what) {
  const Json* value = find(key);
  if (value == nullptr) return std::nullopt;
  if (!value->is_number()) refuse_field(pointer(key), "needs " + what);
  const double number = value->get<double>();
  if (!(number >= low && number <= high)) refuse_field(pointer(key), "needs " + what);
  return number;
}

std::optional<long long> Fields::whole(const std::string& key,
                                       long long low,
                                       long long high,
                                       const std::string& what) {
  const auto value = number(key, static_cast<double>(low), static_cast<double>(high), what);
  if (!value) return std::nullopt;
  if (std::floor(*value) != *value) refuse_field(pointer(key), "needs " + what);
  return static_cast<long long>(*value);
}

std::optional<std::string> Fields::text(const std::string& key, const std::string& what) {
  const Json* value = find(key);
  if (value == nullptr) return std::nullopt;
  if (!value->is_string()) refuse_field(pointer(key), "needs " + what);
  return value->get<std::string>();
}

bool Fields::yes(const std::string& key) {
  const Json* value = find(key);
  if (value == nullptr) return false;
  if (!value->is_boolean()) refuse_field(pointer(key), "needs true or false");
  return value->get<bool>();
}

std::vector<std::string> Fields::texts(const std::string& key,
                                       const std::string& what,
                                       std::size_t most) {
  const Json* value = find(key);
  if (value == nullptr || !value->is_array() || value->empty())
    refuse_field(pointer(key), "needs " + what);
  if (value->size() > most) refuse_field(pointer(key), fmt::format("at most {} at a time", most));
  std::vector<std::string> out;
  for (const Json& one : *value) {
    if (!one.is_string()) refuse_field(pointer(key), "needs " + what);
    out.push_back(one.get<std::string>());
  }
  return out;
}

void Fields::check_all_taken() const {
  for (const auto& [key, value] : object_.items()) {
    if (!taken_.contains(key))
      refuse_field(pointer(key), fmt::format("\"{}\" is not asked for here", key.substr(0, 60)));
  }
}

}  // namespace barm::server

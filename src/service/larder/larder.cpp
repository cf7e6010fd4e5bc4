#include "service/larder/larder.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/letters.h"
#include "larder/larder.h"
#include "service/internal/json_parts.h"
#include "service/internal/object.h"

namespace barm::service {

using internal::object;
using nlohmann::json;

namespace {

bool about(const larder::Ingredient& ingredient, const std::string& words) {
  const auto holds = [&](const std::string& text) {
    return small_letters(text).find(words) != std::string::npos;
  };
  return holds(ingredient.name) || holds(ingredient.key) ||
         holds(std::string(larder::name(ingredient.group))) ||
         std::any_of(ingredient.also.begin(), ingredient.also.end(), holds);
}

}  // namespace

Result<larder::Ingredient> named_in_larder(const std::string& field, const std::string& words) {
  const larder::Ingredient* found = larder::find(words);
  if (found != nullptr) return *found;
  std::string near;
  for (const std::string& name : larder::near(words)) near += (near.empty() ? "" : ", ") + name;
  return failure(ErrorCode::not_found,
                 field,
                 fmt::format("'{}' is not in the larder. Near it: {}", words, near));
}

Result<std::vector<larder::Ingredient>> larder_with(const std::string& words) {
  std::vector<larder::Ingredient> found;
  for (const larder::Ingredient& ingredient : larder::all()) {
    if (about(ingredient, small_letters(words))) found.push_back(ingredient);
  }
  if (!found.empty()) return found;
  const auto single = named_in_larder("larder", words);
  if (!single) return failure(single);
  return std::vector<larder::Ingredient>{*single};
}

json to_json(const std::vector<larder::Ingredient>& ingredients) {
  json out = internal::document("larder");
  out["ingredients"] = json::array();
  for (const larder::Ingredient& ingredient : ingredients) {
    json known = json::object();
    for (std::size_t i = 0; i < larder::property_count; ++i) {
      const auto& value = ingredient.known[i];
      if (!value) continue;
      known[std::string(larder::name(static_cast<larder::Property>(i)))] =
          object({{"typical_si", value->typical},
                  {"low_si", value->low},
                  {"high_si", value->high},
                  {"source", value->source->key},
                  {"at", value->at},
                  {"standing", data::name(value->source->standing)}});
    }
    out["ingredients"].push_back(object({{"key", ingredient.key},
                                         {"name", ingredient.name},
                                         {"also", ingredient.also},
                                         {"group", larder::name(ingredient.group)},
                                         {"allergens", ingredient.allergens},
                                         {"note", ingredient.note},
                                         {"known", known}}));
  }
  return out;
}

json to_list(const std::vector<larder::Ingredient>& ingredients) {
  json out = internal::document("larder-list");
  out["ingredients"] = json::array();
  for (const larder::Ingredient& ingredient : ingredients) {
    out["ingredients"].push_back(object({{"key", ingredient.key},
                                         {"name", ingredient.name},
                                         {"also", ingredient.also},
                                         {"group", larder::name(ingredient.group)},
                                         {"note", ingredient.note}}));
  }
  return out;
}

}  // namespace barm::service

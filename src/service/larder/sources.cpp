#include "service/larder/sources.h"

#include <nlohmann/json.hpp>

#include "base/letters.h"
#include "data/catalogue.h"
#include "forecast/rests_on.h"
#include "formula/read.h"
#include "larder/larder.h"
#include "service/internal/json_parts.h"
#include "service/internal/object.h"

namespace barm::service {

using internal::object;
using nlohmann::json;

Result<std::vector<data::Entry>> sources_of(const std::string& words) {
  std::vector<data::Entry> found = data::search(words);
  for (const data::Entry& entry : larder::entries()) {
    if (small_letters(std::string(entry.name)).find(small_letters(words)) != std::string::npos)
      found.push_back(entry);
  }
  if (found.empty()) {
    return failure(
        ErrorCode::not_found,
        "source",
        "no quantity is called '" + words + "'; 'barm source' without a name lists them all");
  }
  return found;
}

Result<RestingAnswer> sources_behind(const std::string& path, const forecast::Options& options) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  const auto hours = forecast::hours_to_ready(*bake, options);
  if (!hours) return failure(hours);
  const auto resting = forecast::rests_on(*bake, options, *hours);
  if (!resting) return failure(resting);
  RestingAnswer answer{*bake, {}, options.draws};
  for (const forecast::Resting& one : *resting) {
    if (one.share * options.draws < 4) break;  // what so few draws cannot tell from chance
    for (const data::Entry& entry : data::catalogue()) {
      if (entry.name == one.number->name) answer.numbers.push_back({entry, one.share});
    }
  }
  return answer;
}

json to_json(const std::vector<data::Entry>& entries) {
  json out = internal::document("source");
  out["values"] = json::array();
  for (const data::Entry& entry : entries) {
    out["values"].push_back(object({{"name", entry.name},
                                    {"value", entry.value},
                                    {"unit", entry.unit},
                                    {"doubt_ln_sd", entry.doubt},
                                    {"standing", data::name(entry.source->standing)},
                                    {"source", entry.source->key},
                                    {"title", entry.source->title},
                                    {"at", entry.at},
                                    {"note", entry.note},
                                    {"file", entry.file}}));
  }
  return out;
}

json to_json(const RestingAnswer& answer) {
  json out = internal::document("source");
  out["bake"] = answer.bake.name;
  out["values"] = json::array();
  for (const auto& [entry, share] : answer.numbers) {
    json one = to_json(std::vector<data::Entry>{entry})["values"][0];
    one["share_of_doubt"] = share;
    out["values"].push_back(std::move(one));
  }
  return out;
}

}  // namespace barm::service

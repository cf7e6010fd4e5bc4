#include "service/bake/levain.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <utility>

#include "formula/feed.h"
#include "service/internal/json_parts.h"
#include "service/larder/larder.h"
#include "service/now.h"

namespace barm::service {

using nlohmann::json;

namespace {

Result<std::optional<time::LocalTime>> moment_at(const char* field, const std::string& text) {
  const auto read = time::parse_local(text);
  if (read || text.empty()) return read;
  return failure(ErrorCode::bad_input,
                 field,
                 fmt::format("'{}' is no local time; write 2026-11-27T22:00 or 22:00", text));
}

}  // namespace

Result<LevainAnswer> levain(const LevainRequest& request, const forecast::Options& options) {
  const auto parts = formula::parse_feed(request.ratio);
  if (!parts || parts->flour > 5000 * parts->ripe ||
      parts->water > 5 * (parts->flour + parts->ripe)) {
    return failure(
        ErrorCode::bad_input,
        "ratio",
        fmt::format("'{}' is no feeding; write ripe:flour:water, such as 1:2:1", request.ratio));
  }
  const auto fed = moment_at("fed", request.fed_at);
  if (!fed) return failure(fed);
  const auto peak = moment_at("peak-at", request.peak_at);
  if (!peak) return failure(peak);
  const auto starter = named_in_larder("starter", request.starter);
  if (!starter) return failure(starter);
  const auto flour = named_in_larder("flour", request.flour);
  if (!flour) return failure(flour);
  if (!flour->is_flour())
    return failure(ErrorCode::bad_input, "flour", "'" + flour->name + "' is not a flour");
  if (request.wanted.si() <= 0)
    return failure(ErrorCode::bad_input, "need", "a weight such as 300g");

  formula::Levain levain;
  levain.starter = *starter;
  levain.flour = *flour;
  levain.ripe = parts->ripe;
  levain.fresh_flour = parts->flour;
  levain.water = parts->water;
  levain.temperature = request.temperature;
  if (levain.too_much_yeast())
    return failure(
        ErrorCode::bad_input,
        "ratio",
        "a poolish or biga is raised with little yeast; write yeast:flour:water, such as "
        "0.002:1:1");
  // Fed at one hour and wanted at another: so long it has.
  auto peak_in = request.peak_in;
  if (!peak_in && *fed && *peak) {
    peak_in = clock_from(**fed).next(request.peak_at, Time{});
    if (!peak_in || *peak_in <= Time{})
      return failure(
          ErrorCode::bad_input,
          "peak-at",
          fmt::format("'{}' is not after it is fed, {}", request.peak_at, request.fed_at));
  }
  const auto feeding = peak_in
                           ? forecast::feed_to_peak_in(levain, request.wanted, *peak_in, options)
                           : forecast::feed(levain, request.wanted, options);
  if (!feeding) return failure(feeding);
  LevainAnswer answer{request, *feeding, {}, "", options.draws, levain.yeasted()};
  if (*fed) answer.clock = clock_from(**fed);
  if (*peak && !*fed && feeding->peak.p50)
    answer.feed_at = clock_from(**peak).moment(-*feeding->peak.p50);
  return answer;
}

json to_json(const LevainAnswer& answer) {
  json out = internal::document("levain");
  const forecast::Feeding& feeding = answer.feeding;
  out["starter"] = answer.request.starter;
  out["temperature_C"] = answer.request.temperature.celsius();
  out["fresh_flour_parts"] = feeding.fresh_flour;
  out["water_parts"] = feeding.water;
  out["ripe_g"] = feeding.ripe_mass.in(gram);
  out["flour_g"] = feeding.flour_mass.in(gram);
  out["water_g"] = feeding.water_mass.in(gram);
  out["peak"] = internal::spread(feeding.peak);
  out["tripled"] = internal::spread(feeding.tripled);
  out["largest_volume_ratio"] = feeding.largest_rise;
  out["ph_at_peak"] = feeding.ph_at_peak.value();
  out["feed_at"] = answer.feed_at.empty() ? json(nullptr) : json(answer.feed_at);
  out["draws"] = answer.draws;
  return out;
}

}  // namespace barm::service

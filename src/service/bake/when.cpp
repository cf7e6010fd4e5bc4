#include "service/bake/when.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "forecast/ensemble.h"
#include "forecast/feeding.h"
#include "service/bake/aim.h"
#include "service/internal/object.h"
#include "service/oven/oven.h"
#include "service/words.h"

namespace barm::service {

using internal::object;
using nlohmann::json;

namespace {

constexpr Time look_every = 5.0 * minute;
constexpr double wanted[] = {0.8, 0.95};
constexpr int levains_imagined = 100;

// The next "08:30" or "Sun 08:30" after now, or the day and time itself.
std::optional<time::Instant> moment_asked(const std::string& text, const Now& now) {
  if (const auto at = service::moment_of(text, now.zone)) return at;
  const std::size_t blank = text.find(' ');
  const std::string day = blank == std::string::npos ? "" : text.substr(0, blank);
  auto local = time::parse_local(blank == std::string::npos ? text : text.substr(blank + 1));
  if (!local || local->date) return std::nullopt;
  const time::Date today = now.zone.day(now.at);
  for (int later = 0; later <= 7; ++later) {
    local->date = time::Date{today.days + later};
    if (!day.empty() && local->date->weekday() != day) continue;
    const auto at = now.zone.instant(*local);
    if (at > now.at) return at;
  }
  return std::nullopt;
}

// The chance of being ready and not past its best, so long after mixing.
double chance_at(const forecast::Timeline& timeline, double hours) {
  double good = 0;
  for (std::size_t i = 0; i < timeline.oven_hours.size(); ++i) {
    if (timeline.oven_hours[i] <= hours && hours < timeline.past_hours[i]) ++good;
  }
  return good / static_cast<double>(timeline.oven_hours.size());
}

// How long before mixing the levain is fed.
Result<std::optional<Time>> fed_before(const formula::Bake& bake, const forecast::Forecast& seen) {
  if (!bake.levain) return std::optional<Time>();
  if (bake.levain->since_feeding)
    return std::optional(*bake.levain->since_feeding + bake.levain->in_the_cold);
  for (const formula::Weighed& line : seen.bowl.lines) {
    if (!line.levain) continue;
    forecast::Options options;
    options.draws = levains_imagined;
    const auto feeding = forecast::feed(*bake.levain, line.plan, options);
    if (!feeding) return failure(feeding);
    if (feeding->peak.p50) return std::optional(*feeding->peak.p50 + bake.levain->in_the_cold);
  }
  return std::optional<Time>();
}

// What becomes of loaves that go into the oven at hour 0.
Result<std::vector<forecast::Bread>> bread_of(const formula::Bake& bake,
                                              const forecast::Options& options) {
  forecast::Timeline from_the_oven;
  from_the_oven.oven_hours.assign(static_cast<std::size_t>(options.draws), 0);
  from_the_oven.oven = forecast::spread(from_the_oven.oven_hours);
  const auto baked = through_the_oven(from_the_oven, bake, options);
  if (!baked) return failure(baked);
  return std::move(from_the_oven.bread);
}

}  // namespace

Result<WhenAnswer> when(const formula::Bake& written,
                        const WhenRequest& request,
                        forecast::Options options) {
  const auto oven = moment_asked(request.oven, request.now);
  if (!oven) {
    return failure(
        ErrorCode::bad_input,
        "oven",
        fmt::format("'{}' is no moment; write 2026-11-29T08:30, Sun 08:30 or 08:30", request.oven));
  }
  if (*oven <= request.now.at)
    return failure(ErrorCode::bad_input,
                   "oven",
                   fmt::format("'{}' lies behind: name an hour still to come", request.oven));
  formula::Bake bake = written;
  forecast::Made made;
  if (bake.target_follows) {
    const auto ready_for = aim(bake, options, made);
    if (!ready_for) return failure(ready_for);
  }
  options.until_past = true;
  options.curves = false;
  options.done.clear();
  const auto seen = forecast::foresee(bake, options, made);
  if (!seen) return failure(seen);
  auto fed = fed_before(bake, *seen);
  if (!fed) return failure(fed);

  // Nothing can be mixed or fed before now.
  const Time left = (*oven - request.now.at) - fed->value_or(Time{});
  if (left < Time{})
    return failure(ErrorCode::bad_input,
                   "oven",
                   fmt::format("'{}' is too near: its levain alone is fed {} before mixing",
                               request.oven,
                               span(**fed)));

  auto bread = bread_of(bake, options);
  if (!bread) return failure(bread);

  WhenAnswer answer;
  answer.bread = *std::move(bread);
  answer.clock = time::WallClock(*oven, request.now.zone);
  answer.oven_at = request.now.zone.local(*oven).text();
  answer.fed_before_mixing = *fed;
  answer.horizon = options.horizon;
  answer.draws = options.draws;
  for (const double chance : wanted) answer.mix.push_back({Probability(chance), {}, {}});
  double best = -1;
  for (Time hours; hours <= std::min(options.horizon, left); hours += look_every) {
    const double chance = chance_at(seen->timeline, hours.in(hour));
    if (chance > best) {
      best = chance;
      answer.best = hours;
    }
    for (MixingTimes& times : answer.mix) {
      if (chance < times.chance.value()) continue;
      if (!times.latest) times.latest = hours;
      times.soonest = hours;
    }
  }
  answer.best_chance = Probability(std::max(0.0, best));
  answer.bake = std::move(bake);
  return answer;
}

json to_json(const WhenAnswer& answer) {
  const auto at = [&](const std::optional<Time>& before) {
    return before ? json(answer.clock.iso(-*before)) : json();
  };
  const auto fed = [&](const std::optional<Time>& before) {
    return before && answer.fed_before_mixing ? at(*before + *answer.fed_before_mixing) : json();
  };
  const auto moments = [&](const forecast::Spread& s) {
    const auto one = [&](const std::optional<Time>& time) {
      return time ? json(answer.clock.iso(*time)) : json();
    };
    return object({{"p10_at", one(s.p10)}, {"p50_at", one(s.p50)}, {"p90_at", one(s.p90)}});
  };
  json bread = json::array();
  for (const forecast::Bread& load : answer.bread) {
    bread.push_back(object({{"in", moments(load.in)},
                            {"out", moments(load.out)},
                            {"cut", moments(load.cut)},
                            {"bag", moments(load.bag)}}));
  }
  json mix = json::array();
  for (const MixingTimes& times : answer.mix) {
    mix.push_back(object({{"chance", times.chance.value()},
                          {"possible", times.latest.has_value()},
                          {"mix_from_at", at(times.soonest)},
                          {"mix_to_at", at(times.latest)},
                          {"feed_from_at", fed(times.soonest)},
                          {"feed_to_at", fed(times.latest)}}));
  }
  return object({{"schema", "barm.when/1"},
                 {"name", answer.bake.name},
                 {"oven_at", answer.oven_at},
                 {"mix", mix},
                 {"best_chance", answer.best_chance.value()},
                 {"best_mix_at", at(answer.best)},
                 {"best_feed_at", fed(answer.best)},
                 {"bread", bread},
                 {"horizon_h", answer.horizon.in(hour)},
                 {"draws", answer.draws}});
}

}  // namespace barm::service

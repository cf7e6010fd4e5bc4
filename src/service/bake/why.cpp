#include "service/bake/why.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "service/internal/json_parts.h"
#include "service/internal/object.h"
#include "service/words.h"

namespace barm::service {

using forecast::Change;
using forecast::Obstacle;
using internal::object;
using nlohmann::json;

namespace {

constexpr double mostly = 0.5;

bool cannot_hold(const std::optional<forecast::WhyNever>& why) {
  return why && why->obstacle == Obstacle::cannot_hold;
}

// Until when it stands, from when on.
std::string window(const forecast::Forecast& forecast, const time::WallClock& clock) {
  const auto& from = forecast.ready.p50 ? forecast.ready.p50 : forecast.past.p50;
  if (!from || !forecast.fallen.p50 || *forecast.fallen.p50 <= *from) return "";
  return fmt::format("; use it between {} and {}",
                     clock.short_moment(*from),
                     clock.short_moment(*forecast.fallen.p50));
}

std::string_view key_of(Obstacle obstacle) {
  switch (obstacle) {
    case Obstacle::yeast_stops:
      return "yeast_stops";
    case Obstacle::cannot_hold:
      return "cannot_hold";
    case Obstacle::food_gone:
      return "food_gone";
    case Obstacle::too_slow:
      return "too_slow";
  }
  return "";
}

std::string_view key_of(Change::What what) {
  switch (what) {
    case Change::What::share_of_liquid:
      return "share_of_liquid";
    case Change::What::share_of_flour:
      return "share_of_flour";
    case Change::What::temperature:
      return "temperature";
    case Change::What::fresh_levain:
      return "fresh_levain";
    case Change::What::target:
      return "target";
  }
  return "";
}

std::string at_most(double fraction) {
  return fraction < 0.005 ? "no" : "at most " + share(std::floor(200 * fraction) / 200);
}

json change_json(const Change& change) {
  return object({{"what", key_of(change.what)},
                 {"of", change.of},
                 {"at_most", change.at_most},
                 {"instead_of", change.instead_of},
                 {"words", words(change)}});
}

}  // namespace

std::string in_place_of_ready(const forecast::Forecast& forecast,
                              const std::optional<forecast::WhyNever>& why) {
  if (!cannot_hold(why)) return "not within " + span(forecast.horizon);
  return fmt::format(
      "never {}: it holds {:.1f} times at most", risen(forecast.target), forecast.limit.p50);
}

std::string limit_words(const forecast::Forecast& forecast,
                        const std::optional<forecast::WhyNever>& why,
                        const time::WallClock& clock) {
  if (!cannot_hold(why) && forecast.held_by_pentosans < mostly) return "";
  return fmt::format("holds {:.1f} times at most ({:.1f} to {:.1f}){}",
                     forecast.limit.p50,
                     forecast.limit.p10,
                     forecast.limit.p90,
                     window(forecast, clock));
}

std::string_view words(Obstacle obstacle) {
  switch (obstacle) {
    case Obstacle::yeast_stops:
      return "the yeast stops before there is gas enough";
    case Obstacle::cannot_hold:
      return "the yeast makes gas enough, but the dough cannot hold it";
    case Obstacle::food_gone:
      return "the yeast has eaten all there is before there is gas enough";
    case Obstacle::too_slow:
      return "nothing stops it, it only takes longer";
  }
  return "";
}

namespace {

std::string otherwise(const Change& change) {
  switch (change.what) {
    case Change::What::share_of_liquid:
      return change.at_most < 0.005 ? fmt::format("water instead of {}", change.of)
                                    : fmt::format("{} of the liquid as {} instead of {}",
                                                  at_most(change.at_most),
                                                  change.of,
                                                  share(change.instead_of));
    case Change::What::share_of_flour:
      return fmt::format("{} {} instead of {} of the flour",
                         at_most(change.at_most),
                         change.of,
                         share(change.instead_of));
    case Change::What::temperature:
      return fmt::format("{} instead of {}",
                         warmth(Temperature::from_celsius(change.at_most)),
                         warmth(Temperature::from_celsius(change.instead_of)));
    case Change::What::fresh_levain:
      return "the levain at its peak instead of hungry";
    case Change::What::target:
      return fmt::format("{:g} times instead of {}", change.at_most, risen(change.instead_of));
  }
  return "";
}

}  // namespace

std::string words(const Change& change) { return otherwise(change) + ", for 4 of 5 doughs"; }

json to_json(const forecast::InTheWay& way) {
  json costs = json::array();
  for (const forecast::Hindrance& hindrance : way.hindrances) {
    costs.push_back(object({{"factor", forecast::name(hindrance.factor)},
                            {"costs_h", hindrance.costs.in(hour)},
                            {"said_h", hindrance.said.in(hour)}}));
  }
  return object({{"costs", costs},
                 {"as_it_is_h", internal::hours(way.as_it_is)},
                 {"bare_h", internal::hours(way.bare)},
                 {"plain_h", internal::hours(way.plain)},
                 {"at_least", way.at_least}});
}

void add_limits(json& out,
                const forecast::Forecast& forecast,
                const std::optional<forecast::WhyNever>& why,
                const time::WallClock& clock) {
  out["limit"] = object({{"p10_ratio", forecast.limit.p10},
                         {"p50_ratio", forecast.limit.p50},
                         {"p90_ratio", forecast.limit.p90},
                         {"fallen", internal::spread(forecast.fallen)},
                         {"words", limit_words(forecast, why, clock)}});
  out["why_never"] = nullptr;
  if (!why) return;
  out["why_never"] = object({{"obstacle", key_of(why->obstacle)},
                             {"words", words(why->obstacle)},
                             {"in_place_of_ready", in_place_of_ready(forecast, why)},
                             {"change", why->change ? change_json(*why->change) : json()}});
}

}  // namespace barm::service

#include "service/bake/cold.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "service/internal/json_parts.h"
#include "service/internal/object.h"
#include "service/words.h"

namespace barm::service {

using forecast::OutOfTheCold;
using forecast::Spread;
using internal::object;
using nlohmann::json;

namespace {

constexpr double nearly_all = 0.9;
constexpr double hardly_any = 0.1;
constexpr double half = 0.5;

// "2 h (45 min to 3 h 30)".
std::string about(const Spread& spread, const std::string& beyond) {
  const std::string middle = spread.p50 ? span(*spread.p50) : beyond;
  const std::string from = spread.p10 ? span(*spread.p10) : beyond;
  const std::string to = spread.p90 ? span(*spread.p90) : beyond;
  return from == to ? middle : fmt::format("{} ({} to {})", middle, from, to);
}

std::string into_the_oven(const OutOfTheCold& cold, int draws) {
  const std::string at = "at " + warmth(cold.room);
  const double straight = cold.straight.value();
  if (straight >= nearly_all) return "straight into the oven";
  if (straight >= half) {
    return fmt::format(
        "straight into the oven for {} doughs like it; the others are young and "
        "stand up to {} {} first",
        odds(cold.straight, draws),
        cold.stand.p90 ? span(*cold.stand.p90) : "6 h and more",
        at);
  }
  const std::string some =
      straight < hardly_any ? ""
                            : fmt::format("; {} could go straight in", odds(cold.straight, draws));
  return fmt::format(
      "still young, let it stand {} {} first{}", about(cold.stand, "over 6 h"), at, some);
}

std::string in_the_fridge(const OutOfTheCold& cold, Time horizon, int draws) {
  std::string stays =
      cold.may_stay.p10
          ? fmt::format("It may stay in the cold {}", about(cold.may_stay, "longer than we look"))
          : fmt::format("It may stay in the cold to the end of the {} we look at", span(horizon));
  if (cold.too_long.value() < hardly_any) return stays;
  return fmt::format("{}: {} would be too long for {} doughs like it, ripe before that",
                     stays,
                     span(cold.planned),
                     odds(cold.too_long, draws));
}

}  // namespace

std::string out_of_the_cold_in_words(const forecast::Timeline& timeline) {
  if (!timeline.out_of_the_cold) return "";
  const OutOfTheCold& cold = *timeline.out_of_the_cold;
  std::string stands;
  if (cold.stands) stands = fmt::format(" (your bake has {})", span(*cold.stands));
  return fmt::format("Out of the cold: {}{}. {}",
                     into_the_oven(cold, timeline.draws),
                     stands,
                     in_the_fridge(cold, timeline.horizon, timeline.draws));
}

json out_of_the_cold_json(const forecast::Timeline& timeline) {
  if (!timeline.out_of_the_cold) return {};
  const OutOfTheCold& cold = *timeline.out_of_the_cold;
  return object({{"words", out_of_the_cold_in_words(timeline)},
                 {"stage", cold.stage},
                 {"planned_h", cold.planned.in(hour)},
                 {"room_C", cold.room.celsius()},
                 {"straight", cold.straight.value()},
                 {"too_long", cold.too_long.value()},
                 {"stand", internal::spread(cold.stand)},
                 {"may_stay", internal::spread(cold.may_stay)}});
}

}  // namespace barm::service

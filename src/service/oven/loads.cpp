#include "service/oven/internal/loads.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/require.h"
#include "generated/constants.h"
#include "numerics/quantiles.h"
#include "service/oven/internal/asked.h"

namespace barm::service::internal {

namespace {

// Enough for the tenth of them on either side, and a fourth of the work of a forecast.
constexpr int doughs_drawn = 100;

Ripeness ripeness_of(double room) {
  constexpr double too_little_room = 0.1;
  constexpr double too_much_room = 0.9;
  if (room < too_little_room) return Ripeness::ripe;
  return room > too_much_room ? Ripeness::young : Ripeness::right;
}

// The bake whose dough goes on in its last place for as many loads as wait.
formula::Bake left_waiting(formula::Bake bake, Time apart, int loads) {
  const auto ferments = [](const formula::Stage& stage) { return formula::stands(stage.step); };
  const auto last = std::find_if(bake.stages.rbegin(), bake.stages.rend(), ferments);
  require(last != bake.stages.rend(), "a plan has a bulk");
  formula::Stage waits = *last;
  waits.until.reset();
  waits.surroundings.opens_at.reset();  // nothing comes in
  waits.lasts = apart;
  bake.stages.insert(bake.stages.end(), static_cast<std::size_t>(loads) - 1, waits);
  return bake;
}

// Of the doughs that get behind the last stage but so many; the middle one's where none does.
std::vector<double> rooms_in(const forecast::Timeline& way, std::size_t behind, double middle) {
  std::vector<double> out;
  for (std::size_t at = way.stages.size() - behind; at > 0 && out.empty(); --at) {
    for (const double room : way.stages[at - 1].rooms) {
      if (!std::isnan(room)) out.push_back(std::max(0.0, room));
    }
  }
  if (out.empty()) out.push_back(middle);
  return out;
}

oven::Range range_of_rooms(std::vector<double> rooms) {
  constexpr std::array shares{0.1, 0.5, 0.9};
  const auto q = numerics::quantiles(rooms, shares);
  return {q[0], q[1], q[2]};
}

// The load `number` behind the first: what stands there of the middle dough and of all.
FurtherLoad told(int number,
                 Time apart,
                 int pieces,
                 const forecast::MiddleDough& dough,
                 const std::vector<double>& rooms,
                 const OvenAnswer& answer) {
  std::vector<std::string> told_already;
  FurtherLoad one;
  one.loaves = std::min(answer.oven.loaves, pieces - number * answer.oven.loaves);
  one.waited = static_cast<double>(number) * apart;
  one.loaf = loaf_of(dough, {}, told_already);
  one.loaf.form = answer.loaf.form;
  one.room = range_of_rooms(rooms);
  one.ripeness = ripeness_of(one.room.p50);
  const auto baked = oven::bake(one.loaf, answer.oven, answer.lasts, answer.known.middle);
  const double first = answer.many.book.course.back().spring;
  std::vector<double> springs = answer.many.springs;
  for (double& spring : springs) spring *= first > 0 ? baked.course.back().spring / first : 1;
  one.rise = oven::risen(springs, rooms);
  return one;
}

}  // namespace

Result<bool> tell_loads(const Loading& loading, OvenAnswer& answer) {
  forecast::Options options = loading.options;
  options.draws = std::min(options.draws, doughs_drawn);
  const int loads = std::min(loading.loads, most_loads);
  const Time apart = answer.lasts + constants::baking::between_loads.value;
  const formula::Bake waits =
      left_waiting(forecast::Plan::of(loading.bake, options).bake, apart, loads);
  const auto way = forecast::way_alone(waits, options);
  if (!way) return failure(way);
  const auto behind = static_cast<std::size_t>(loads) - 1;
  const auto rooms = rooms_in(*way, behind, answer.loaf.room);
  answer.room = range_of_rooms(rooms);
  answer.rise = oven::risen(answer.many.springs, rooms);
  answer.ripeness = ripeness_of(answer.room.p50);
  if (loading.loads > most_loads)
    answer.assumed.push_back(
        fmt::format("only the first {} of {} loads are told", most_loads, loading.loads));
  if (behind == 0) return true;
  auto dough = forecast::foresee_middle(waits, options);
  if (!dough) return failure(dough);
  const auto stops = dough->stops;
  for (std::size_t number = 1; number <= behind; ++number) {
    dough->stops.assign(stops.begin(), stops.end() - static_cast<long>(behind - number));
    const double middle = std::max(0.0, dough->stops.back().room_left);
    answer.further.push_back(told(static_cast<int>(number),
                                  apart,
                                  loading.pieces,
                                  *dough,
                                  rooms_in(*way, behind - number, middle),
                                  answer));
  }
  return true;
}

}  // namespace barm::service::internal

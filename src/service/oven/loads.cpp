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
  if (room < forecast::ripe_below) return Ripeness::ripe;
  return room > forecast::young_above ? Ripeness::young : Ripeness::right;
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

// What an oven that has not come back to its dial costs a loaf, in whole minutes.
Time longer_than_at_its_dial(const oven::Loaf& loaf, oven::Oven oven, const oven::Luck& luck) {
  const auto here = oven::baked_through(loaf, oven, luck);
  oven.walls.reset();
  const auto at_its_dial = oven::baked_through(loaf, oven, luck);
  return here && at_its_dial ? std::max(Time{}, *here - *at_its_dial) : Time{};
}

// The oven as the load `number` behind the first finds it; without a power it is back by itself.
oven::Oven as_found(int number, int pieces, const Temperature& left, const OvenAnswer& answer) {
  oven::Oven oven = answer.oven;
  oven.loaves = std::min(oven.loaves, pieces - number * oven.loaves);
  if (oven.power)
    oven.walls =
        oven::walls_after(oven, left, constants::baking::between_loads.value, answer.known.middle);
  return oven;
}

Temperature left_by(const FurtherLoad& load, const oven::Oven& oven, const OvenAnswer& answer) {
  if (!oven.power) return load.oven_set;
  const Time lasts = answer.lasts + load.longer;
  return Temperature::from_celsius(oven::bake(load.loaf, oven, lasts, answer.known.middle).walls);
}

// The load `number` behind the first: what stands there of the middle dough and of all.
FurtherLoad told(int number,
                 Time apart,
                 const oven::Oven& oven,
                 const forecast::MiddleDough& dough,
                 const std::vector<double>& rooms,
                 const OvenAnswer& answer) {
  std::vector<std::string> told_already;
  FurtherLoad one;
  one.loaves = oven.loaves;
  one.waited = static_cast<double>(number) * apart;
  one.loaf = loaf_of(dough, {}, told_already);
  one.loaf.form = answer.loaf.form;
  one.room = range_of_rooms(rooms);
  one.ripeness = ripeness_of(one.room.p50);
  const oven::Luck& luck = answer.known.middle;
  const auto baked = oven::bake(one.loaf, oven, answer.lasts, luck);
  const double first = answer.many.book.course.back().spring;
  std::vector<double> springs = answer.many.springs;
  for (double& spring : springs) spring *= first > 0 ? baked.course.back().spring / first : 1;
  one.rise = oven::risen(springs, rooms);
  one.oven_set = Temperature::from_celsius(oven::set_at(oven, 0));
  one.oven_has = oven.walls.value_or(one.oven_set);
  one.core = Temperature::from_celsius(baked.course.back().core);
  if (!answer.typed) one.longer = longer_than_at_its_dial(one.loaf, oven, luck);
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
  Temperature left = Temperature::from_celsius(answer.many.book.walls);
  if (!answer.oven.power)
    answer.assumed.emplace_back(
        "an oven as hot for each load as for the first: with its power it is followed");
  for (std::size_t number = 1; number <= behind; ++number) {
    dough->stops.assign(stops.begin(), stops.end() - static_cast<long>(behind - number));
    const double middle = std::max(0.0, dough->stops.back().room_left);
    const auto load = static_cast<int>(number);
    const oven::Oven oven = as_found(load, loading.pieces, left, answer);
    FurtherLoad further =
        told(load, apart, oven, *dough, rooms_in(*way, behind - number, middle), answer);
    left = left_by(further, oven, answer);
    answer.further.push_back(further);
  }
  return true;
}

}  // namespace barm::service::internal

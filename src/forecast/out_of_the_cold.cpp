#include "forecast/out_of_the_cold.h"

#include <algorithm>
#include <cmath>

#include "forecast/internal/cold_proof.h"

namespace barm::forecast::internal {

using formula::Stage;
using formula::Step;

namespace {

constexpr Time longest_standing = 6.0 * hour;
constexpr Time longest_stay = 1e3 * hour;  // the horizon ends it sooner

// The doughs in that place until they have less room than that, or for so long.
Result<std::vector<double>> hours_until_room(std::span<const Walker> doughs,
                                             Stage place,
                                             Time longest,
                                             double room,
                                             const WalkOptions& options) {
  place.until.reset();
  place.lasts = longest;
  std::vector<Walker> waiting;
  waiting.reserve(doughs.size());
  for (const Walker& dough : doughs) {
    waiting.push_back(Walker{dough.way, {}, dough.on});
    if (!dough.on) continue;
    waiting.back().way.enter(place, false);
    waiting.back().way.give_up_below(room);
  }
  const auto ended =
      ferment(waiting, [](std::size_t) { return std::optional<double>(); }, {}, options);
  if (!ended) return failure(ended);
  std::vector<double> hours;
  hours.reserve(waiting.size());
  for (std::size_t i = 0; i < waiting.size(); ++i) {
    const DoughOnItsWay& way = waiting[i].way;
    hours.push_back((*ended)[i] != 0 ? Passed::never : way.now() - way.begun());
  }
  return hours;
}

// The proof behind the cold; without one, a room as warm as that of the bulk.
Stage room_after(const Plan& plan, std::size_t cold) {
  if (cold + 1 < plan.bake.stages.size()) return plan.bake.stages[cold + 1];
  Stage room;
  room.step = Step::proof;
  room.temperature = plan.bake.bulk()->temperature;
  room.surroundings = plan.bake.stages[cold].surroundings;
  room.surroundings.opens_at.reset();
  room.surroundings.fan = false;
  return room;
}

// Of the draws that count.
struct Sample {
  std::vector<double> hours, weights;

  void add(double value, double weight) {
    hours.push_back(value);
    weights.push_back(weight);
  }

  template <class Condition>
  [[nodiscard]] Probability share(const Condition& holds) const {
    double with = 0;
    double all = 0;
    for (std::size_t i = 0; i < hours.size(); ++i) {
      all += weights[i];
      if (holds(hours[i])) with += weights[i];
    }
    return Probability(std::clamp(with / all, 0.0, 1.0));
  }
};

}  // namespace

std::optional<std::size_t> cold_proof_of(const Plan& plan) {
  const auto& stages = plan.bake.stages;
  std::size_t at = stages.size();
  while (at > 0 && stages[at - 1].step == Step::proof) --at;
  const bool cold = at > 0 && stages[at - 1].step == Step::cold;
  if (!cold || plan.done[at - 1] != 0 || at + 1 < stages.size()) return std::nullopt;
  const auto bulk = std::find_if(
      stages.begin(), stages.end(), [](const Stage& one) { return one.step == Step::bulk; });
  return bulk < stages.begin() + static_cast<long>(at) ? std::optional(at - 1) : std::nullopt;
}

Result<std::optional<OutOfTheCold>> out_of_the_cold(const Plan& plan,
                                                    std::size_t cold,
                                                    std::span<const Walker> going_in,
                                                    std::span<const Walker> coming_out,
                                                    const std::vector<double>& weights,
                                                    const WalkOptions& options) {
  const Stage room = room_after(plan, cold);
  const auto stays =
      hours_until_room(going_in, plan.bake.stages[cold], longest_stay, ripe_below, options);
  if (!stays) return failure(stays);
  const auto stands = hours_until_room(coming_out, room, longest_standing, young_above, options);
  if (!stands) return failure(stands);
  Sample standing, staying, left_over, planned;
  for (std::size_t i = 0; i < coming_out.size(); ++i) {
    if (!coming_out[i].on) continue;
    const double weight = weights.empty() ? 1 : weights[i];
    const Stop& out = coming_out[i].stops.back();
    standing.add(out.room_left <= young_above ? 0 : (*stands)[i], weight);
    staying.add((*stays)[i], weight);
    planned.add((out.end - out.begin).in(hour), weight);
    left_over.add(out.room_left - ripe_below, weight);
  }
  if (standing.hours.empty()) return std::optional<OutOfTheCold>();
  OutOfTheCold told;
  told.stage = cold;
  told.planned = *spread(planned.hours, planned.weights).p50;
  told.room = room.temperature;
  told.straight = standing.share([](double hours) { return hours <= 0; });
  told.too_long = left_over.share([](double more) { return more < 0; });
  told.stand = spread(standing.hours, standing.weights);
  told.may_stay = spread(staying.hours, staying.weights);
  if (cold + 1 < plan.bake.stages.size()) told.stands = room.lasts;
  return std::optional(told);
}

}  // namespace barm::forecast::internal

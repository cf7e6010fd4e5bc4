#include "dayplan/remedy.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "dayplan/due.h"
#include "dayplan/plan.h"

namespace barm::dayplan {

namespace {

constexpr long patience = 1'500;     // of dead ends, for each change that is tried
constexpr std::size_t doughs = 100;  // by which timetables are compared
constexpr long worth_telling = 5;    // of costs: one dough in twenty
constexpr int hours_later[] = {1, 2, 4};
constexpr int more_of_it[] = {1, 2};

Planned timetable_alone(const Day& day) {
  Effort effort;
  effort.by_the_draws = false;
  effort.patience = patience;
  return *plan(day, {}, effort);  // nobody cancels
}

Day with_more(Day day, std::size_t resource, int more) {
  day.house[resource].capacity += more;
  return day;
}

Day with(Day day, const Offer& offer) {
  auto& ways = day.bakes[offer.bake].ways;
  ways.insert(ways.end(), offer.ways.begin(), offer.ways.end());
  return day;
}

std::string more(const Resource& what, int amount) {
  return amount == 1 ? "one more " + what.one : "two more " + what.many;
}

}  // namespace

Day only(const Day& day, const std::vector<std::size_t>& bakes) {
  Day out{day.house, {}, day.grid};
  for (const std::size_t b : bakes) out.bakes.push_back(day.bakes[b]);
  return out;
}

Minutes shortest(const Bake& bake) {
  double least = for_ever;
  for (const Way& way : bake.ways) {
    std::size_t doughs = 1;
    for (const Leg& leg : way.legs) doughs = std::max(doughs, leg.ready.size());
    std::vector<double> begun(way.steps.size());
    for (std::size_t k = 0; k < doughs; ++k) {
      for (std::size_t i = 1; i < begun.size(); ++i) begun[i] = due(way, i, k, begun.data()).ready;
      least = std::min(least, due(way, begun.size(), k, begun.data()).ready);
    }
  }
  return static_cast<Minutes>(std::ceil(least));
}

Day thinned(const Day& day, std::size_t number) {
  Day out = day;
  const auto thin = [&](Draws& draws) {
    if (draws.size() > number) draws.resize(number);
  };
  for (Bake& bake : out.bakes) {
    for (Way& way : bake.ways) {
      for (Leg& leg : way.legs) {
        thin(leg.ready);
        thin(leg.lasts);
      }
    }
  }
  return out;
}

std::vector<std::string> what_would_free(const Day& whole,
                                         const std::vector<std::size_t>& bakes,
                                         const Offers& offers) {
  const Day day = thinned(only(whole, bakes), doughs);
  std::vector<std::string> out;
  bool nights = false;
  for (std::size_t r = 0; r < day.house.size(); ++r) {
    nights = nights || !day.house[r].closed.empty();
    for (const int amount : more_of_it) {
      if (!timetable_alone(with_more(day, r, amount)).plan) continue;
      out.push_back(more(day.house[r], amount));
      break;
    }
  }
  for (const Offer& offer : offers ? offers(bakes) : std::vector<Offer>()) {
    if (timetable_alone(thinned(only(with(whole, offer), bakes), doughs)).plan)
      out.push_back(offer.words);
  }
  if (nights) {
    Day awake = day;
    for (Resource& what : awake.house) what.closed.clear();
    if (timetable_alone(awake).plan) out.emplace_back("the nights and days of rest worked through");
  }
  for (const int hours : hours_later) {
    Day later = day;
    for (Bake& bake : later.bakes) bake.wanted += (60 * hours + day.grid - 1) / day.grid * day.grid;
    if (!timetable_alone(later).plan) continue;
    out.push_back(fmt::format("the bread {} h later", hours));
    break;
  }
  return out;
}

std::vector<std::string> what_would_ease(const Day& whole,
                                         const std::vector<std::size_t>& bakes,
                                         const Offers& offers) {
  std::vector<std::string> out;
  const Day day = thinned(whole, doughs);
  const Planned now = timetable_alone(day);
  const auto eases = [&](const Day& other) {
    const Planned eased = timetable_alone(other);
    return eased.plan && (!now.plan || eased.cost + worth_telling <= now.cost);
  };
  for (std::size_t r = 0; r < day.house.size(); ++r) {
    if (eases(with_more(day, r, 1))) out.push_back(more(day.house[r], 1));
  }
  for (const Offer& offer : offers ? offers(bakes) : std::vector<Offer>()) {
    if (eases(thinned(with(whole, offer), doughs))) out.push_back(offer.words);
  }
  return out;
}

}  // namespace barm::dayplan

#include "service/day/lists.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "forecast/ensemble.h"
#include "service/day/day.h"
#include "service/day/drawn.h"
#include "service/day/steps.h"
#include "service/internal/object.h"
#include "service/shop/provisions.h"

namespace barm::service {

using internal::object;

namespace {

using nlohmann::json;

/// The bake by the way of that name, and how often its file makes the loaves of the day.
formula::Bake made_by_name(const DayBake& bake, const std::string& way) {
  for (const OtherWay& each : ways_of(bake)) {
    if (way_name(each) == way) return made_by(bake.bake, each);
  }
  return bake.bake;
}

std::vector<DayLine> lines_of(const formula::Bake& bake, const formula::Bowl& bowl, double times) {
  std::vector<DayLine> out;
  for (std::size_t i = 0; i < bowl.lines.size() && i < bake.bowl.size(); ++i) {
    const bool drink = bake.bowl[i].ingredient.group == larder::Group::drink;
    DayLine line{bowl.lines[i].name, times * bowl.lines[i].plan, std::nullopt};
    if (drink) line.volume = times * bowl.lines[i].volume;
    out.push_back(std::move(line));
  }
  return out;
}

/// When the step of that name begins; nothing where the bake has none.
std::optional<time::Instant> begin_of_step(const DayFile& file,
                                           std::size_t bake,
                                           const BakePlan& plan,
                                           const std::string& step) {
  for (const OtherWay& way : ways_of(file.bakes[bake])) {
    if (way_name(way) != plan.way) continue;
    const auto steps = steps_of(file, file.bakes[bake], way, {});
    if (!steps) continue;
    for (std::size_t i = 0; i < steps->steps.size() && i < plan.begins.size(); ++i) {
      if (steps->steps[i].what == step) return plan.begins[i];
    }
  }
  return std::nullopt;
}

json line_json(const DayLine& line) {
  return object({{"ingredient", line.ingredient},
                 {"mass_g", line.mass.in(gram)},
                 {"volume_mL", line.volume ? json(line.volume->in(millilitre)) : json()}});
}

json lines_json(const std::vector<DayLine>& lines) {
  json out = json::array();
  for (const DayLine& line : lines) out.push_back(line_json(line));
  return out;
}

}  // namespace

DayLists day_lists(const DayFile& file,
                   const std::vector<BakePlan>& plan,
                   const std::optional<std::vector<storage::Bottle>>& shelf) {
  DayLists out;
  Needs needs;
  for (std::size_t b = 0; b < plan.size(); ++b) {
    const DayBake& each = file.bakes[b];
    if (each.done.contains("mix")) continue;
    const formula::Bake bake = made_by_name(each, plan[b].way);
    const auto bowl = forecast::middle_bowl(bake);
    if (!bowl) continue;
    // A file without pieces does not say how much dough a loaf is: its bowl is taken as it is.
    const double times =
        each.bake.pieces ? static_cast<double>(each.loaves) / *each.bake.pieces : 1.0;
    auto levain = fed_levain(bake, *bowl, times);
    if (each.done.contains("feed")) levain.reset();
    add_needs(needs, bake, *bowl, levain, times);
    const auto fed = begin_of_step(file, b, plan[b], "feed");
    const auto mixed = begin_of_step(file, b, plan[b], "mix");
    if (levain && fed) out.feedings.push_back({plan[b].bake, levain->words, *fed});
    if (mixed)
      out.weighings.push_back({plan[b].bake, each.loaves, *mixed, lines_of(bake, *bowl, times)});
  }
  const auto earlier = [](const auto& one, const auto& other) { return one.at < other.at; };
  std::stable_sort(out.feedings.begin(), out.feedings.end(), earlier);
  std::stable_sort(out.weighings.begin(), out.weighings.end(), earlier);
  for (const auto& [ingredient, need] : needs) {
    out.needs.push_back(
        {ingredient, need.mass, need.drink ? std::optional(need.volume) : std::nullopt});
  }
  if (shelf) out.buy = to_buy(needs, *shelf);
  return out;
}

json to_json(const DayLists& lists) {
  json feedings = json::array();
  for (const DayFeeding& one : lists.feedings)
    feedings.push_back(object({{"bake", one.bake}, {"at", one.at.text()}, {"words", one.words}}));
  json weighings = json::array();
  for (const DayWeighing& one : lists.weighings) {
    weighings.push_back(object({{"bake", one.bake},
                                {"loaves", one.loaves},
                                {"at", one.at.text()},
                                {"lines", lines_json(one.lines)}}));
  }
  return object({{"feed", feedings},
                 {"weigh", weighings},
                 {"needs", lines_json(lists.needs)},
                 {"buy", lists.buy ? json(*lists.buy) : json()}});
}

}  // namespace barm::service

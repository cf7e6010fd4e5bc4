#include "service/day_drawn.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "service/day_hours.h"
#include "service/day_steps.h"

namespace barm::service {

namespace {

constexpr double warmer_K = 3;  // common practice, no source
constexpr double coolest_bulk_C = 16, warmest_bulk_C = 30;
constexpr double more_levain = 1.5;  // times
constexpr double most_levain = 0.5;  // of flour
constexpr std::pair<Time, Time> a_night_cold{8.0 * hour, 16.0 * hour};

/// One bake by all its ways, or with hours of the chosen one alone; a way that what is done has
/// left behind is none any more.
Result<dayplan::Bake> drawn_bake(const DayFile& file,
                                 std::size_t number,
                                 const forecast::Options& options,
                                 std::optional<std::size_t> chosen) {
  const DayBake& each = file.bakes[number];
  dayplan::Bake out{name_of_bake(file, number),
                    static_cast<dayplan::Minutes>((each.bread.seconds - file.begins.seconds) / 60),
                    {}};
  std::optional<Result<BulkDraws>> own;
  const auto hours_of = [&](const OtherWay& way) -> Result<BulkDraws> {
    if (chosen && *chosen != out.ways.size()) return BulkDraws{{1}, {1}};  // nobody goes it
    if (way.bulk || way.levain) return bulk_draws(each, way, options);
    if (!own) own = bulk_draws(each, {}, options);
    return *own;
  };
  std::optional<Error> wrong;
  for (const OtherWay& way : ways_of(each)) {
    auto steps = steps_of(file, each, way, BulkDraws{{1}, {1}});
    if (!steps) {
      if (!wrong) wrong = steps.error();
      continue;
    }
    const auto hours = hours_of(way);
    if (!hours) return failure(hours);
    out.ways.push_back(*steps_of(file, each, way, *hours));
  }
  if (out.ways.empty()) return failure(wrong->code, wrong->where, wrong->message);
  return out;
}

bool is_allowed(const DayBake& bake, bool (*has)(const OtherWay&)) {
  return std::any_of(bake.others.begin(), bake.others.end(), has);
}

/// What might be tried with one bake, and in which words.
std::vector<std::pair<OtherWay, std::string>> thought_of(const DayFile& file, const DayBake& bake) {
  std::vector<std::pair<OtherWay, std::string>> out;
  const auto add = [&](const OtherWay& way, const std::string& words) {
    out.emplace_back(way, words);
  };
  if (!bake.done.contains("mix")) {
    const double bulk = bake.bake.bulk_temperature().celsius();
    for (const double celsius : {bulk + warmer_K, bulk - warmer_K}) {
      if (celsius < coolest_bulk_C || celsius > warmest_bulk_C) continue;
      OtherWay way;
      way.bulk = Temperature::from_celsius(celsius);
      if (!is_allowed(bake, [](const OtherWay& one) { return one.bulk.has_value(); }))
        add(way, "with its " + way_name(way));
    }
    const formula::Portion* levain = levain_of_flour(bake.bake);
    const double more =
        levain == nullptr ? 1 : std::round(100 * more_levain * levain->amount) / 100;
    if (more <= most_levain) {
      OtherWay way;
      way.levain = more;
      add(way, way_name(way));
    }
  }
  const bool cold_anyway =
      std::any_of(bake.bake.stages.begin(), bake.bake.stages.end(), [](const formula::Stage& each) {
        return each.step == formula::Step::cold;
      });
  if (!cold_anyway && file.house.fridge >= bake.loaves &&
      !is_allowed(bake, [](const OtherWay& one) { return one.fridge.has_value(); })) {
    OtherWay way;
    way.fridge = a_night_cold;
    add(way, way_name(way));
  }
  if (bake.loaves > 1 && !is_allowed(bake, [](const OtherWay& one) { return one.loads > 1; })) {
    OtherWay way;
    way.loads = 2;
    add(way, way_name(way));
  }
  return out;
}

}  // namespace

std::string name_of_bake(const DayFile& file, std::size_t bake) {
  const auto plain = [&](std::size_t b) {
    return file.bakes[b].bake.name.empty() ? file.bakes[b].file : file.bakes[b].bake.name;
  };
  int before = 0;
  for (std::size_t b = 0; b < bake; ++b) before += plain(b) == plain(bake) ? 1 : 0;
  return before == 0 ? plain(bake) : fmt::format("{} ({})", plain(bake), before + 1);
}

std::vector<OtherWay> ways_of(const DayBake& bake) {
  std::vector<OtherWay> ways{OtherWay{}};
  ways.insert(ways.end(), bake.others.begin(), bake.others.end());
  return ways;
}

Result<dayplan::Day> drawn_day(const DayFile& file,
                               const forecast::Options& options,
                               const dayplan::Plan* plan) {
  dayplan::Day out{house_of(file), {}, 5};
  for (std::size_t b = 0; b < file.bakes.size(); ++b) {
    auto bake = drawn_bake(
        file, b, options, plan != nullptr ? std::optional((*plan)[b].way) : std::nullopt);
    if (!bake) return failure(bake);
    out.bakes.push_back(std::move(*bake));
  }
  return out;
}

std::vector<dayplan::Offer> offered_ways(const DayFile& file,
                                         const std::vector<std::size_t>& bakes,
                                         const forecast::Options& options) {
  std::vector<dayplan::Offer> out;
  for (const std::size_t b : bakes) {
    const DayBake& bake = file.bakes[b];
    std::optional<Result<BulkDraws>> own;
    for (const auto& [way, words] : thought_of(file, bake)) {
      const bool other_dough = way.bulk || way.levain;
      if (!other_dough && !own) own = bulk_draws(bake, {}, options);
      const auto hours = other_dough ? bulk_draws(bake, way, options) : *own;
      if (!hours) continue;
      auto steps = steps_of(file, bake, way, *hours);
      if (steps)
        out.push_back({b, std::move(*steps), "the " + name_of_bake(file, b) + " " + words});
    }
  }
  return out;
}

}  // namespace barm::service

#include "service/day/drawn.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "service/day/hours.h"
#include "service/day/steps.h"

namespace barm::service {

namespace {

constexpr double warmer_K = 3;  // common practice, no source
constexpr double coolest_bulk_C = 16, warmest_bulk_C = 30;
constexpr double more_levain = 1.5;       // times
constexpr double most_levain = 0.5;       // of flour
constexpr std::size_t most_thoughts = 5;  // of one bake
constexpr std::size_t most_offers = 12;   // tried of one day: each is a timetable
constexpr std::pair<Time, Time> a_night_cold{8.0 * hour, 16.0 * hour};

constexpr Time least_horizon = 24.0 * hour, most_horizon = 72.0 * hour;

/// What is drawn of a day: each dough once for all bakes that are the same dough.
class Drawing {
 public:
  Drawing(const DayFile& file, forecast::Options options, bool anew)
      : options_(std::move(options)), anew_(anew) {
    // What comes after the bread is wanted matters to nobody.
    Time longest = least_horizon;
    for (const DayBake& each : file.bakes) longest = std::max(longest, each.bread - file.begins);
    options_.horizon = std::min(longest, most_horizon);
  }

  Result<WayDraws> of(const DayBake& bake, const OtherWay& way) {
    OtherWay dough;
    dough.bulk = way.bulk;
    dough.levain = way.levain;
    auto key = std::tuple(bake.file, bake.made_from, way_name(dough));
    const auto whole = known_.find(key);
    if (whole != known_.end()) return whole->second;
    dough.fridge = way.fridge;
    key = std::tuple(bake.file, bake.made_from, way_name(dough));
    const auto known = known_.find(key);
    if (known != known_.end()) return known->second;
    auto drawn = dough_draws(bake, dough, options_);
    if (!drawn) return failure(drawn);
    WayDraws all{std::move(*drawn), oven_of(bake)};
    known_.emplace(key, all);
    return all;
  }

 private:
  OvenMinutes oven_of(const DayBake& bake) {
    if (!anew_) return oven_minutes(*bake.oven, options_.draws);
    const auto [found, is_new] = ovens_.try_emplace(std::tuple(bake.file, bake.made_from));
    if (is_new) found->second = oven_minutes_anew(*bake.oven, options_);
    return found->second;
  }

  forecast::Options options_;
  bool anew_;  // the loaves of the oven too
  std::map<std::tuple<std::string, std::string, std::string>, WayDraws> known_;
  std::map<std::tuple<std::string, std::string>, OvenMinutes> ovens_;
};

/// One bake by all its ways, or with hours of the chosen one alone; a way that what is done has
/// left behind is none any more.
Result<dayplan::Bake> drawn_bake(const DayFile& file,
                                 std::size_t number,
                                 Drawing& drawn,
                                 std::optional<std::size_t> chosen) {
  const DayBake& each = file.bakes[number];
  dayplan::Bake out{name_of_bake(file, number),
                    static_cast<dayplan::Minutes>((each.bread.seconds - file.begins.seconds) / 60),
                    {}};
  std::optional<Error> wrong;
  for (const OtherWay& way : ways_of(each)) {
    auto steps = steps_of(file, each, way, {});
    if (!steps) {
      if (!wrong) wrong = steps.error();
      continue;
    }
    if (!chosen || *chosen == out.ways.size()) {  // else nobody goes it
      const auto draws = drawn.of(each, way);
      if (!draws) return failure(draws);
      steps = steps_of(file, each, way, *draws);
    }
    out.ways.push_back(std::move(*steps));
  }
  if (out.ways.empty()) return failure(*wrong);
  return out;
}

bool is_allowed(const DayBake& bake, bool (*has)(const OtherWay&)) {
  return std::any_of(bake.others.begin(), bake.others.end(), has);
}

/// A change of a way that might be tried, and in which words.
struct Thought {
  OtherWay change;
  std::string words;
};

/// With one bake.
std::vector<Thought> thought_of(const DayFile& file, const DayBake& bake) {
  std::vector<Thought> out;
  const bool cold_anyway =
      std::any_of(bake.bake.stages.begin(), bake.bake.stages.end(), [](const formula::Stage& each) {
        return each.step == formula::Step::cold;
      });
  if (!cold_anyway && file.house.fridge >= bake.loaves &&
      !is_allowed(bake, [](const OtherWay& one) { return one.fridge.has_value(); })) {
    OtherWay way;
    way.fridge = a_night_cold;
    out.push_back({way, way_name(way)});
  }
  if (bake.loaves > 1 && !is_allowed(bake, [](const OtherWay& one) { return one.loads > 1; })) {
    OtherWay way;
    way.loads = 2;
    out.push_back({way, way_name(way)});
  }
  if (bake.done.contains("mix")) return out;
  const double bulk = bake.bake.bulk_temperature().celsius();
  for (const double celsius : {bulk + warmer_K, bulk - warmer_K}) {
    if (celsius < coolest_bulk_C || celsius > warmest_bulk_C) continue;
    OtherWay way;
    way.bulk = Temperature::from_celsius(celsius);
    if (!is_allowed(bake, [](const OtherWay& one) { return one.bulk.has_value(); }))
      out.push_back({way, "with its " + way_name(way)});
  }
  const formula::Portion* levain = levain_of_flour(bake.bake);
  const double more = levain == nullptr ? 1 : std::round(100 * more_levain * levain->amount) / 100;
  if (more <= most_levain) {
    OtherWay way;
    way.levain = more;
    out.push_back({way, way_name(way)});
  }
  return out;
}

/// The way with the change made to it.
OtherWay changed_way(OtherWay way, const OtherWay& change) {
  if (change.bulk) way.bulk = change.bulk;
  if (change.levain) way.levain = change.levain;
  if (change.fridge) way.fridge = change.fridge;
  way.loads = std::max(way.loads, change.loads);
  return way;
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
  Drawing drawn(file, options, plan != nullptr);
  for (std::size_t b = 0; b < file.bakes.size(); ++b) {
    auto bake =
        drawn_bake(file, b, drawn, plan != nullptr ? std::optional((*plan)[b].way) : std::nullopt);
    if (!bake) return failure(bake);
    out.bakes.push_back(std::move(*bake));
  }
  return out;
}

std::vector<dayplan::Offer> offered_ways(const DayFile& file,
                                         const std::vector<std::size_t>& bakes,
                                         const forecast::Options& options) {
  std::vector<dayplan::Offer> out;
  Drawing drawn(file, options, false);
  const auto offer = [&](std::size_t b, const Thought& thought) {
    dayplan::Offer one{b, {}, "the " + name_of_bake(file, b) + " " + thought.words};
    for (const OtherWay& way : ways_of(file.bakes[b])) {
      const OtherWay other = changed_way(way, thought.change);
      const auto draws = drawn.of(file.bakes[b], other);
      if (!draws) return;
      auto steps = steps_of(file, file.bakes[b], other, *draws);
      if (steps) one.ways.push_back(std::move(*steps));
    }
    if (!one.ways.empty()) out.push_back(std::move(one));
  };
  std::vector<std::vector<Thought>> all;
  for (const std::size_t b : bakes) all.push_back(thought_of(file, file.bakes[b]));
  // The first thought of every bake, then the second of every bake, as long as somebody waits.
  for (std::size_t i = 0; i < most_thoughts && out.size() < most_offers; ++i) {
    for (std::size_t b = 0; b < bakes.size() && out.size() < most_offers; ++b) {
      if (i < all[b].size()) offer(bakes[b], all[b][i]);
    }
  }
  return out;
}

}  // namespace barm::service

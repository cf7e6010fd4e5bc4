// The levains of today: when each is at its best, when it is to be fed.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "forecast/feeding.h"
#include "formula/feed.h"
#include "larder/larder.h"
#include "service/daybook/internal/today.h"
#include "service/words.h"

namespace barm::service::internal {

using storage::Daybook;

namespace {

constexpr int levains_drawn = 100;

/// When a planned dough takes ripe starter of its culture, and how much.
struct Taken {
  time::Instant at;
  Mass ripe;
};

std::optional<Taken> taken_by(const Alive& alive, const Now& now) {
  if (alive.record.state != "planned" || !alive.record.mixed_at) return std::nullopt;
  if (alive.bake.levain && alive.bake.levain->yeasted()) return std::nullopt;
  const auto feed = levain_of(alive);
  Taken out{feed ? feed->at : *alive.record.mixed_at, feed ? feed->levain.ripe : Mass{}};
  for (std::size_t i = 0; !feed && i < alive.bake.bowl.size(); ++i) {
    if (alive.bake.bowl[i].ingredient.group == larder::Group::starter)
      out.ripe = out.ripe + alive.bowl.lines[i].plan;
  }
  if (!(out.ripe.si() > 0) || out.at < now.at - an_hour) return std::nullopt;
  return out;
}

std::string wanted_of(const storage::Culture& culture,
                      const std::vector<Alive>& doughs,
                      const Now& now) {
  std::vector<Taken> all;
  for (const Alive& alive : doughs) {
    if (alive.record.culture != culture.id) continue;
    if (const auto taken = taken_by(alive, now)) all.push_back(*taken);
  }
  std::sort(all.begin(), all.end(), [](const Taken& a, const Taken& b) { return a.at < b.at; });
  std::string out;
  for (const Taken& one : all) {
    out +=
        fmt::format("{}{} {}", out.empty() ? "" : ", ", weight(one.ripe), said(one.at, now.zone));
  }
  if (out.empty()) return out;
  const auto feed = formula::parse_feed(culture.feed);
  if (!feed || !culture.ripe_weight_g) return out;
  return out + fmt::format("; a feeding makes {}", weight(*culture.ripe_weight_g * gram));
}

std::string fed_as_usual(const storage::Culture& culture) {
  const auto feed = formula::parse_feed(culture.feed);
  if (!feed || !culture.ripe_weight_g) return culture.feed + " of ripe, flour and water";
  const Mass part = (*culture.ripe_weight_g / (feed->ripe + feed->flour + feed->water)) * gram;
  return fmt::format("{} ripe, {} {}, {} water",
                     weight(feed->ripe * part),
                     weight(feed->flour * part),
                     culture.flour,
                     weight(feed->water * part));
}

std::optional<LevainToday> levain_today(const storage::Culture& culture,
                                        const std::vector<storage::Feeding>& feedings,
                                        const Now& now) {
  LevainToday today;
  today.culture = culture.id;
  today.title = culture.title;
  today.next = "feed it: " + fed_as_usual(culture);
  if (feedings.empty()) {
    today.next_at = culture.feed_every_h ? std::optional(now.at) : std::nullopt;
    return today;
  }
  const storage::Feeding& last = feedings.back();
  today.fed_at = last.at;
  const larder::Ingredient* starter = larder::find(culture.starter);
  const larder::Ingredient* flour = larder::find(last.flour.empty() ? culture.flour : last.flour);
  if (starter != nullptr && flour != nullptr && last.ripe_g > 0) {
    formula::Levain levain;
    levain.starter = *starter;
    levain.flour = *flour;
    levain.ripe = 1;
    levain.fresh_flour = last.flour_g / last.ripe_g;
    levain.water = last.water_g / last.ripe_g;
    levain.temperature =
        Temperature::from_celsius(last.temperature_C.value_or(culture.temperature_C));
    forecast::Options options;
    options.draws = levains_drawn;
    const auto feeding =
        forecast::feed(levain, (last.ripe_g + last.flour_g + last.water_g) * gram, options);
    if (feeding) {
      today.peak_p10 = after(last.at, feeding->peak.p10);
      today.peak_at = after(last.at, feeding->peak.p50);
      today.peak_p90 = after(last.at, feeding->peak.p90);
    }
  }
  if (today.peak_at && *today.peak_at > now.at) {
    today.next = "at its best";
    today.next_at = quarter(*today.peak_at);
  } else if (culture.feed_every_h) {
    today.next_at = quarter(last.at + std::llround(3600 * *culture.feed_every_h));
  }
  return today;
}

}  // namespace

time::Instant tonight_ends(const Now& now) { return now.zone.noon(now.at, 1); }

Result<bool> add_levains(TodayAnswer& answer,
                         Feedings& tonight,
                         Daybook& daybook,
                         const std::vector<Alive>& doughs,
                         const Now& now) {
  const auto cultures = daybook.list<storage::Culture>();
  if (!cultures) return failure(cultures);
  for (const storage::Culture& culture : *cultures) {
    storage::Query of_culture;
    of_culture.owner = culture.id;
    const auto feedings = daybook.list<storage::Feeding>(of_culture);
    if (!feedings) return failure(feedings);
    auto levain = levain_today(culture, *feedings, now);
    if (!levain) continue;
    levain->wanted = wanted_of(culture, doughs, now);
    answer.levains.push_back(*levain);
    if (!culture.feed_every_h) continue;
    const time::Instant due =
        levain->fed_at ? *levain->fed_at + std::llround(3600 * *culture.feed_every_h) : now.at;
    if (due > tonight_ends(now)) continue;
    tonight.emplace_back(
        due,
        fmt::format("{}: {}, {}{}",
                    culture.title,
                    fed_as_usual(culture),
                    due <= now.at ? "due now" : said(due, now.zone),
                    levain->wanted.empty() ? "" : " · ripe for doughs: " + levain->wanted));
  }
  return true;
}

}  // namespace barm::service::internal

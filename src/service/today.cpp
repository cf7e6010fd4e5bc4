// What is alive today, what to do next, what to feed, buy and weigh.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "forecast/ensemble.h"
#include "forecast/feeding.h"
#include "larder/larder.h"
#include "service/clock.h"
#include "service/daybook.h"
#include "service/head.h"
#include "service/kept_ready.h"
#include "service/provisions.h"
#include "service/words.h"

namespace barm::service {

using nlohmann::json;
using storage::Daybook;
using storage::Moment;

namespace {

constexpr std::int64_t an_hour = 3600;
constexpr int levains_drawn = 100;

Moment after(Moment moment, Time time) { return moment + std::llround(time.si()); }

std::optional<Moment> after(Moment moment, std::optional<Time> time) {
  return time ? std::optional(after(moment, *time)) : std::nullopt;
}

Moment quarter(Moment at) { return time::to_nearest(time::seconds_a_quarter, at); }

// To the quarter of an hour, unless it is known: an hour that was written down stays as it is.
std::optional<Moment> foretold(std::optional<Moment> at, const forecast::Spread& spread) {
  const bool known = spread.p10 && spread.p90 && *spread.p10 == *spread.p90;
  return at && !known ? std::optional(quarter(*at)) : at;
}

std::string window(const DoughToday& dough, const time::Zone& zone) {
  if (!dough.ready_p50) return "fewer than half of such doughs get ready in three days";
  std::string words = said(*dough.ready_p50, zone);
  if (!dough.ready_p10) return words;
  return words + fmt::format(", {} to {}",
                             said(*dough.ready_p10, zone),
                             dough.ready_p90 ? said(*dough.ready_p90, zone) : "open end");
}

// A bake that matters today, with all that is known of it.
struct Alive {
  storage::Bake record;
  std::vector<storage::Mark> marks;
  formula::Bake bake;
  formula::Bowl bowl;           // of the middle dough
  forecast::Timeline timeline;  // after mixing
  std::string rests_on;
};

// What has to be fed for a bake and when; nothing without a levain of its own.
struct ToFeed {
  Moment at;
  FedLevain levain;
};

std::optional<ToFeed> levain_of(const Alive& alive) {
  if (!alive.record.mixed_at) return std::nullopt;
  auto levain = fed_levain(alive.bake, alive.bowl);
  if (!levain) return std::nullopt;
  const Moment at = after(*alive.record.mixed_at, -levain->before_mixing);
  return ToFeed{at, std::move(*levain)};
}

Result<DoughToday> dough_today(const Alive& alive, const Now& now) {
  DoughToday dough;
  dough.bake = alive.record.id;
  dough.title = alive.record.title;
  dough.state = alive.record.state;
  dough.mixed_at = alive.record.mixed_at;
  const Moment mixed = alive.record.mixed_at.value_or(now.at);
  const bool live = alive.record.state == "live";
  const Time elapsed = static_cast<double>(now.at.seconds - mixed.seconds) * second;
  const forecast::Timeline& timeline = alive.timeline;
  dough.ready_p10 = foretold(after(mixed, timeline.ready.p10), timeline.ready);
  dough.ready_p50 = foretold(after(mixed, timeline.ready.p50), timeline.ready);
  dough.ready_p90 = foretold(after(mixed, timeline.ready.p90), timeline.ready);
  dough.ready = window(dough, now.zone);
  dough.rests_on = alive.rests_on;
  const auto elapsed_if_live = live ? std::optional(elapsed) : std::nullopt;
  const Head head = head_of(timeline, alive.bake, time::WallClock(mixed, now.zone), elapsed_if_live);
  dough.head = head.words;
  dough.late = head.late;

  const forecast::ToDo* next = timeline.next(elapsed_if_live);
  const auto feed = live ? std::nullopt : levain_of(alive);
  if (feed && now.at < feed->at + an_hour) {
    dough.next = "feed its levain: " + feed->levain.words;
    dough.next_at = quarter(feed->at);
  } else if (next != nullptr) {
    dough.next = what_to_do(*next, timeline, alive.bake);
    dough.next_at = foretold(after(mixed, next->at.p50), next->at);
  }
  return dough;
}

DoughToday unreadable(const storage::Bake& record, const Error& error) {
  DoughToday dough;
  dough.bake = record.id;
  dough.title = record.title;
  dough.state = record.state;
  dough.mixed_at = record.mixed_at;
  dough.next = "mend its file: " + error.text();
  return dough;
}

// Live doughs, and planned ones from a day ago to two days ahead.
Result<std::vector<storage::Bake>> near_bakes(Daybook& daybook, const Now& now) {
  storage::Query query;
  query.state = "live";
  auto bakes = daybook.list<storage::Bake>(query);
  if (!bakes) return failure(bakes);
  query.state = "planned";
  auto planned = daybook.list<storage::Bake>(query);
  if (!planned) return failure(planned);
  for (storage::Bake& bake : *planned) {
    if (!bake.mixed_at || *bake.mixed_at < now.at - time::seconds_a_day ||
        *bake.mixed_at > now.at + 2 * time::seconds_a_day)
      continue;
    bakes->push_back(std::move(bake));
  }
  return std::move(*bakes);
}

std::string fed_as_usual(const storage::Culture& culture) {
  double ripe = 0;
  double flour = 0;
  double water = 0;
  const bool parts = std::sscanf(culture.feed.c_str(), "%lf:%lf:%lf", &ripe, &flour, &water) == 3 &&
                     ripe > 0 && flour > 0 && water > 0;
  if (!parts || !culture.ripe_weight_g) return culture.feed + " of ripe, flour and water";
  const Mass part = (*culture.ripe_weight_g / (ripe + flour + water)) * gram;
  return fmt::format("{} ripe, {} {}, {} water",
                     weight(ripe * part),
                     weight(flour * part),
                     culture.flour,
                     weight(water * part));
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

bool has_a_drink(const formula::Bake& bake) {
  return std::any_of(bake.bowl.begin(), bake.bowl.end(), [](const formula::Portion& portion) {
    return portion.ingredient.group == larder::Group::drink;
  });
}

bool to_weigh(const Alive& alive, const Now& now) {
  return alive.record.state == "planned" && alive.record.mixed_at &&
         *alive.record.mixed_at >= now.at - 12 * an_hour && !has_a_drink(alive.bake);
}

std::string day_of(const Alive& alive, const Now& now) {
  return now.zone.day(*alive.record.mixed_at).text();
}

// All ordinary breads of the next day on which some are mixed: today's while there are any.
void weigh_ordinary(TodayAnswer& answer, const std::vector<Alive>& doughs, const Now& now) {
  for (const Alive& alive : doughs) {
    if (!to_weigh(alive, now)) continue;
    const std::string day = day_of(alive, now);
    if (answer.weigh_day.empty() || day < answer.weigh_day) answer.weigh_day = day;
  }
  for (const Alive& alive : doughs) {
    if (!to_weigh(alive, now) || day_of(alive, now) != answer.weigh_day) continue;
    answer.ordinary.push_back(alive.record.title);
    for (const formula::Weighed& line : alive.bowl.lines) {
      const auto same = [&](const WeighToday& one) { return one.ingredient == line.name; };
      const auto found = std::find_if(answer.weigh.begin(), answer.weigh.end(), same);
      if (found == answer.weigh.end()) {
        answer.weigh.push_back({line.name, line.plan});
      } else {
        found->mass = found->mass + line.plan;
      }
    }
  }
}

// Noon of the next day.
Moment tonight_ends(const Now& now) { return now.zone.noon(now.at, 1); }

Result<Alive> alive_of(Daybook& daybook, KeptBake kept, const Now& now) {
  auto bake = stored_bake(kept.record, kept.marks, now);
  if (!bake) return failure(bake);
  auto bowl = forecast::middle_bowl(*bake);
  if (!bowl) return failure(bowl);
  auto ready = kept_ready(daybook, kept, *bake, now);
  if (!ready) return failure(ready);
  return Alive{std::move(kept.record),
               std::move(kept.marks),
               std::move(*bake),
               std::move(*bowl),
               std::move(ready->timeline),
               std::move(ready->rests_on)};
}

Result<std::vector<Alive>> living(Daybook& daybook, TodayAnswer& answer, const Now& now) {
  const auto records = near_bakes(daybook, now);
  if (!records) return failure(records);
  std::vector<Alive> doughs;
  for (const storage::Bake& record : *records) {
    auto kept = kept_bake(daybook, record);
    if (!kept) return failure(kept);
    auto alive = alive_of(daybook, std::move(*kept), now);
    if (alive) {
      doughs.push_back(std::move(*alive));
    } else {
      answer.doughs.push_back(unreadable(record, alive.error()));
    }
  }
  return doughs;
}

// Something to feed and when; said in order of time.
using Feedings = std::vector<std::pair<Moment, std::string>>;

Result<bool> add_levains(TodayAnswer& answer, Feedings& tonight, Daybook& daybook, const Now& now) {
  const auto cultures = daybook.list<storage::Culture>();
  if (!cultures) return failure(cultures);
  for (const storage::Culture& culture : *cultures) {
    storage::Query of_culture;
    of_culture.owner = culture.id;
    const auto feedings = daybook.list<storage::Feeding>(of_culture);
    if (!feedings) return failure(feedings);
    const auto levain = levain_today(culture, *feedings, now);
    if (!levain) continue;
    answer.levains.push_back(*levain);
    if (!culture.feed_every_h) continue;
    const Moment due =
        levain->fed_at ? *levain->fed_at + std::llround(3600 * *culture.feed_every_h) : now.at;
    if (due > tonight_ends(now)) continue;
    tonight.emplace_back(due,
                         fmt::format("{}: {}, {}",
                                     culture.title,
                                     fed_as_usual(culture),
                                     due <= now.at ? "due now" : said(due, now.zone)));
  }
  return true;
}

json moment_or_null(const std::optional<Moment>& moment) {
  return moment ? json(moment->text()) : json(nullptr);
}

}  // namespace

Result<TodayAnswer> today(Daybook& daybook,
                          const Now& now,
                          const std::function<bool()>& cancelled) {
  TodayAnswer answer;
  answer.now = now.at;
  const auto invented = daybook.get<storage::Setting>("invented");
  answer.invented = invented && !invented->deleted_at && invented->value == "true";

  const auto doughs = living(daybook, answer, now);
  if (!doughs) return failure(doughs);
  Needs needs;
  Feedings tonight;
  for (const Alive& alive : *doughs) {
    if (cancelled && cancelled()) return failure(ErrorCode::cancelled, "", "stopped");
    auto dough = dough_today(alive, now);
    if (!dough) return failure(dough);
    answer.doughs.push_back(std::move(*dough));
    if (alive.record.state == "live") continue;
    const auto feed = levain_of(alive);
    add_needs(needs, alive.bake, alive.bowl, feed ? std::optional(feed->levain) : std::nullopt);
    if (!feed || feed->at < now.at - an_hour || feed->at > tonight_ends(now)) continue;
    tonight.emplace_back(
        feed->at,
        fmt::format(
            "for {}: {}, {}", alive.record.title, feed->levain.words, said(feed->at, now.zone)));
  }
  std::stable_sort(
      answer.doughs.begin(), answer.doughs.end(), [](const DoughToday& a, const DoughToday& b) {
        return a.next_at && b.next_at ? *a.next_at < *b.next_at : a.next_at && !b.next_at;
      });
  const auto levains = add_levains(answer, tonight, daybook, now);
  if (!levains) return failure(levains);
  std::sort(tonight.begin(), tonight.end());
  for (auto& [at, words] : tonight) answer.feed_tonight.push_back(std::move(words));
  const auto shelf = daybook.list<storage::Bottle>();
  if (!shelf) return failure(shelf);
  answer.buy = to_buy(needs, *shelf);
  weigh_ordinary(answer, *doughs, now);
  auto day = kept_day(daybook, now);
  if (!day) return failure(day);
  answer.day = std::move(*day);
  return answer;
}

json to_json(const TodayAnswer& answer) {
  json doughs = json::array();
  for (const DoughToday& dough : answer.doughs) {
    doughs.push_back({{"bake", dough.bake},
                      {"title", dough.title},
                      {"state", dough.state},
                      {"mixed_at", moment_or_null(dough.mixed_at)},
                      {"head", dough.head},
                      {"next", dough.next},
                      {"next_at", moment_or_null(dough.next_at)},
                      {"ready_p10_at", moment_or_null(dough.ready_p10)},
                      {"ready_p50_at", moment_or_null(dough.ready_p50)},
                      {"ready_p90_at", moment_or_null(dough.ready_p90)},
                      {"ready_at", dough.ready},
                      {"rests_on", dough.rests_on},
                      {"late", dough.late}});
  }
  json levains = json::array();
  for (const LevainToday& levain : answer.levains) {
    levains.push_back({{"culture", levain.culture},
                       {"title", levain.title},
                       {"fed_at", moment_or_null(levain.fed_at)},
                       {"peak_p10_at", moment_or_null(levain.peak_p10)},
                       {"peak_at", moment_or_null(levain.peak_at)},
                       {"peak_p90_at", moment_or_null(levain.peak_p90)},
                       {"next", levain.next},
                       {"next_at", moment_or_null(levain.next_at)}});
  }
  json weigh = json::array();
  for (const WeighToday& line : answer.weigh)
    weigh.push_back({{"ingredient", line.ingredient}, {"mass_g", line.mass.in(gram)}});
  return {{"schema", "barm.today/1"},
          {"now", answer.now.text()},
          {"invented", answer.invented},
          {"clock", answer.clock ? json(*answer.clock) : json()},
          {"doughs", doughs},
          {"levains", levains},
          {"feed_tonight", answer.feed_tonight},
          {"buy", answer.buy},
          {"weigh_day", answer.weigh_day},
          {"ordinary", answer.ordinary},
          {"weigh", weigh},
          {"day", to_json(answer.day)}};
}

}  // namespace barm::service

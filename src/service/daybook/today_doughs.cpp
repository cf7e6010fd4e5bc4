// The doughs of today: what comes next of each.
#include <fmt/format.h>

#include <cmath>

#include "forecast/ensemble.h"
#include "service/bake/head.h"
#include "service/daybook/internal/today.h"
#include "service/daybook/kept_ready.h"
#include "service/words.h"

namespace barm::service::internal {

using storage::Daybook;

namespace {

// To the quarter of an hour, unless it is known: an hour that was written down stays as it is.
std::optional<time::Instant> foretold(std::optional<time::Instant> at,
                                      const forecast::Spread& spread) {
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

Result<Alive> alive_of(Daybook& daybook, KeptBake kept, const Now& now, const AsRead& as_read) {
  auto bake = stored_bake(kept.record, kept.marks, kept.house, now);
  if (!bake) return failure(bake);
  auto bowl = forecast::middle_bowl(*bake);
  if (!bowl) return failure(bowl);
  auto ready = kept_ready(daybook, kept, *bake, now, as_read);
  if (!ready) return failure(ready);
  return Alive{std::move(kept.record),
               std::move(kept.marks),
               std::move(*bake),
               std::move(*bowl),
               std::move(ready->timeline),
               std::move(ready->rests_on)};
}

}  // namespace

std::optional<ToFeed> levain_of(const Alive& alive) {
  if (!alive.record.mixed_at) return std::nullopt;
  auto levain = fed_levain(alive.bake, alive.bowl);
  if (!levain) return std::nullopt;
  const time::Instant at = after(*alive.record.mixed_at, -levain->before_mixing);
  return ToFeed{at, std::move(*levain)};
}

Result<DoughToday> dough_today(const Alive& alive, const Now& now) {
  DoughToday dough;
  dough.bake = alive.record.id;
  dough.title = alive.record.title;
  dough.state = alive.record.state;
  dough.mixed_at = alive.record.mixed_at;
  const time::Instant mixed = alive.record.mixed_at.value_or(now.at);
  const bool live = alive.record.state == "live";
  const Time elapsed = static_cast<double>(now.at.seconds - mixed.seconds) * second;
  const forecast::Timeline& timeline = alive.timeline;
  dough.ready_p10 = foretold(after(mixed, timeline.ready.p10), timeline.ready);
  dough.ready_p50 = foretold(after(mixed, timeline.ready.p50), timeline.ready);
  dough.ready_p90 = foretold(after(mixed, timeline.ready.p90), timeline.ready);
  dough.ready = window(dough, now.zone);
  dough.rests_on = alive.rests_on;
  const auto elapsed_if_live = live ? std::optional(elapsed) : std::nullopt;
  const Head head =
      head_of(timeline, alive.bake, time::WallClock(mixed, now.zone), elapsed_if_live);
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

Result<std::vector<Alive>> living(Daybook& daybook,
                                  TodayAnswer& answer,
                                  const Now& now,
                                  const AsRead& as_read) {
  const auto records = near_bakes(daybook, now);
  if (!records) return failure(records);
  std::vector<Alive> doughs;
  for (const storage::Bake& record : *records) {
    auto kept = kept_bake(daybook, record);
    if (!kept) return failure(kept);
    auto alive = alive_of(daybook, std::move(*kept), now, as_read);
    if (alive) {
      doughs.push_back(std::move(*alive));
    } else {
      answer.doughs.push_back(unreadable(record, alive.error()));
    }
  }
  return doughs;
}

}  // namespace barm::service::internal

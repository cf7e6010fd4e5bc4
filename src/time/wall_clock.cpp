#include "time/wall_clock.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "time/span.h"

namespace barm::time {

WallClock::WallClock(Instant mixed, Zone zone)
    : mixed_(mixed), dated_(true), zone_(std::move(zone)) {}

Result<WallClock> WallClock::mixed(std::string_view local, const Zone& zone) {
  if (local.empty()) return WallClock();
  if (const auto read = parse_local(local)) return mixed(*read, zone);
  return failure(ErrorCode::bad_input,
                 "mixed",
                 fmt::format("'{}' is no local time; write 2026-11-28T07:00 or 07:00", local));
}

Result<WallClock> WallClock::mixed(const LocalTime& local, const Zone& zone) {
  const bool dated = local.date.has_value();
  const LocalTime on_a_day{dated ? local.date : Date{}, local.second_of_day};
  // A time of day alone stands on some day; which one matters only to a changed clock.
  const Zone its_zone = dated ? zone : Zone::fixed(0);
  const auto moments = its_zone.instants(on_a_day);
  if (moments.empty()) {
    return failure(
        ErrorCode::bad_input,
        "mixed",
        fmt::format("{} did not exist: the clock was put forward that night", local.text()));
  }
  WallClock clock(moments.front(), its_zone);
  clock.dated_ = dated;
  return clock;
}

LocalTime WallClock::shown(Instant at) const { return zone_.local(at); }

// To the quarter of an hour on the clock; the moment of mixing itself is known.
Instant WallClock::quarter(Time after_mixing) const {
  const Instant at = *mixed_ + after_mixing;
  if (at == *mixed_) return at;
  return to_nearest(seconds_a_quarter, at);
}

long WallClock::days_on(const LocalTime& later) const {
  return later.date->days - shown(*mixed_).date->days;
}

std::optional<Instant> WallClock::instant(Time after_mixing) const {
  return known() && dated_ ? std::optional(*mixed_ + after_mixing) : std::nullopt;
}

std::string WallClock::moment(Time after_mixing) const {
  if (!known()) return span(after_mixing) + " after mixing";
  const LocalTime at = shown(quarter(after_mixing));
  if (dated_) return at.date->weekday() + " " + at.of_day();
  const long days = days_on(at);
  if (days == 0) return at.of_day();
  return days == 1 ? at.of_day() + " next day" : fmt::format("{}, {} days on", at.of_day(), days);
}

std::string WallClock::short_moment(Time after_mixing) const {
  if (!known()) return span(after_mixing);
  const LocalTime at = shown(quarter(after_mixing));
  const long days = days_on(at);
  if (days == 0) return at.of_day();
  return dated_ ? moment(after_mixing) : fmt::format("{} +{}d", at.of_day(), days);
}

std::string WallClock::iso(Time after_mixing) const {
  if (!known() || !dated_) return "";
  return shown(to_nearest(60, *mixed_ + after_mixing)).text();
}

Result<Time> WallClock::since_mixing(std::string_view local, Time last) const {
  const auto bad = [](std::string words) {
    return failure(ErrorCode::bad_input, "", std::move(words));
  };
  auto read = parse_local(local);
  if (!read) {
    return bad(
        fmt::format("'{}' is no time; write 14:30, 2026-11-28T14:30 or hours since mixing", local));
  }
  if (!known()) {
    return bad(fmt::format(
        "'{}' is a time on the clock, but when was it mixed? Put mixed = 2026-11-28T07:00 in the "
        "bake file, or write hours since mixing",
        local));
  }
  if (read->date && !dated_) {
    return bad(fmt::format("'{}' has a date, the mixing has none", local));
  }
  if (!read->date) {
    // The day on which the last reading stood, or the next: past midnight, or before mixing.
    constexpr long half_a_day = seconds_a_day / 2;
    const LocalTime before = shown(*mixed_ + last);
    const LocalTime start = shown(*mixed_);
    read->date = before.date;
    const bool past_midnight = read->second_of_day < before.second_of_day - half_a_day;
    const bool before_mixing =
        before.date == start.date && read->second_of_day / 60 < start.second_of_day / 60;
    if (past_midnight || before_mixing) ++read->date->days;
  }
  const auto moments = zone_.instants(*read);
  if (moments.empty()) {
    return bad(fmt::format("{} did not exist: the clock was put forward that night", local));
  }
  const auto late_enough = std::find_if(
      moments.begin(), moments.end(), [&](Instant at) { return at - *mixed_ >= last; });
  return (late_enough == moments.end() ? moments.back() : *late_enough) - *mixed_;
}

std::optional<Time> WallClock::next(std::string_view local, Time earliest) const {
  auto read = parse_local(local);
  if (!known() || !read || (read->date && !dated_)) return std::nullopt;
  if (read->date) return zone_.instant(*read) - *mixed_;
  read->date = shown(*mixed_ + earliest).date;
  while (zone_.instant(*read) - *mixed_ <= earliest) ++read->date->days;
  return zone_.instant(*read) - *mixed_;
}

}  // namespace barm::time

#include "estimation/local_time.h"

#include <cctz/civil_time.h>
#include <cctz/time_zone.h>
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cstdio>
#include <vector>

namespace barm::estimation {

namespace {

constexpr long long day = 86400;
constexpr long long half_a_day = day / 2;

struct Written {
  std::optional<long long> date;  // [s] of its midnight
  long long of_day = 0;           // [s]
};

std::optional<Written> written(std::string_view text) {
  const std::string s(text);
  int year = 0;
  int month = 0;
  int date_of_month = 0;
  int hours = 0;
  int minutes = 0;
  double seconds = 0;
  char gap = 0;
  int used = 0;
  Written out;
  if (std::sscanf(s.c_str(),
                  "%4d-%2d-%2d%c%2d:%2d%n",
                  &year,
                  &month,
                  &date_of_month,
                  &gap,
                  &hours,
                  &minutes,
                  &used) == 6 &&
      (gap == 'T' || gap == ' ')) {
    const cctz::civil_day date(year, month, date_of_month);  // 31 November becomes 1 December
    if (date.month() != month || date.day() != date_of_month) return std::nullopt;
    out.date = static_cast<long long>(date - cctz::civil_day()) * day;
  } else if (std::sscanf(s.c_str(), "%2d:%2d%n", &hours, &minutes, &used) != 2) {
    return std::nullopt;
  }
  if (static_cast<std::size_t>(used) < s.size()) {
    int more = 0;
    if (std::sscanf(s.c_str() + used, ":%lf%n", &seconds, &more) != 1 ||
        static_cast<std::size_t>(used) + static_cast<std::size_t>(more) != s.size())
      return std::nullopt;
  }
  if (hours < 0 || hours > 23 || minutes < 0 || minutes > 59 || !(seconds >= 0 && seconds < 60))
    return std::nullopt;
  out.of_day = hours * 3600 + minutes * 60 + static_cast<long long>(seconds);
  return out;
}

// A name of the zone rules and nothing else: the library would also open any other file.
bool looks_like_zone(const std::string& name) {
  return std::isupper(static_cast<unsigned char>(name.front())) != 0 &&
         std::all_of(name.begin(), name.end(), [](unsigned char letter) {
           return std::isalnum(letter) != 0 || letter == '/' || letter == '_' || letter == '-' ||
                  letter == '+';
         });
}

std::optional<cctz::time_zone> zone_named(const std::string& name) {
  cctz::time_zone zone;
  if (!looks_like_zone(name) || !cctz::load_time_zone(name, &zone)) return std::nullopt;
  return zone;
}

long long seconds_of(cctz::time_point<cctz::seconds> moment) {
  return moment.time_since_epoch().count();
}

// The moments at which the wall shows a local time: none in the hour that is skipped in spring, two
// in the one that comes again in autumn.
std::vector<long long> moments_of(long long local, const std::string& zone) {
  if (zone.empty()) return {local};
  const auto at = zone_named(zone)->lookup(cctz::civil_second() + local);
  switch (at.kind) {
    case cctz::time_zone::civil_lookup::SKIPPED:
      return {};
    case cctz::time_zone::civil_lookup::REPEATED:
      return {seconds_of(at.pre), seconds_of(at.post)};
    default:
      return {seconds_of(at.pre)};
  }
}

}  // namespace

bool looks_like_clock(std::string_view text) { return text.find(':') != std::string_view::npos; }

Result<WallClock> WallClock::mixed(const std::string& at, const std::string& zone) {
  WallClock clock;
  if (!zone.empty() && !zone_named(zone)) {
    return failure(ErrorCode::not_found,
                   "--zone",
                   fmt::format("'{}' is no time zone; write one such as Europe/Berlin", zone));
  }
  clock.zone_ = zone;
  if (at.empty()) return clock;
  const auto read = written(at);
  if (!read) {
    return failure(ErrorCode::bad_input,
                   "mixed",
                   fmt::format("'{}' is no local time; write 2026-11-28T07:00 or 07:00", at));
  }
  // A time of day alone stands on some day; which one matters only to a changed clock.
  clock.mixed_local_ = read->date.value_or(0) + read->of_day;
  if (!read->date) clock.zone_.clear();
  const auto moments = moments_of(*clock.mixed_local_, clock.zone_);
  if (moments.empty()) {
    return failure(ErrorCode::bad_input,
                   "mixed",
                   fmt::format("{} did not exist in {}: the clock was put forward", at, zone));
  }
  clock.mixed_ = moments.front();
  return clock;
}

Result<Time> WallClock::since_mixing(std::string_view local, Time after) const {
  const auto bad = [](std::string words) {
    return failure(ErrorCode::bad_input, "", std::move(words));
  };
  const auto read = written(local);
  if (!read)
    return bad(
        fmt::format("'{}' is no time; write 14:30, 2026-11-28T14:30 or hours since mixing", local));
  if (!known())
    return bad(fmt::format(
        "'{}' is a time on the clock, but when was it mixed? Put mixed = 2026-11-28T07:00 in the "
        "bake file, or write hours since mixing",
        local));
  long long wall = read->of_day;
  if (read->date) {
    if (*mixed_local_ < day) return bad(fmt::format("'{}' has a date, the mixing has none", local));
    wall += *read->date;
  } else {
    // The day on which the last reading stood, or the next past midnight.
    const long long last = *mixed_local_ + static_cast<long long>(after.in(second));
    wall += (last / day) * day;
    if (wall < last - half_a_day) wall += day;
  }
  const auto moments = moments_of(wall, zone_);
  if (moments.empty())
    return bad(fmt::format("{} did not exist: the clock was put forward that night", local));
  const double since = after.in(second);
  for (const long long moment : moments) {
    const auto passed = static_cast<double>(moment - *mixed_);
    if (passed >= since || moment == moments.back()) return passed * second;
  }
  return bad("");
}

}  // namespace barm::estimation

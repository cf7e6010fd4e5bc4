#include "time/zone.h"

#include <cctz/time_zone.h>
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <chrono>
#include <ctime>

#include "base/require.h"

namespace barm::time {

namespace {

// A name of the zone rules and nothing else: the library would also open any other file.
bool looks_like_zone(const std::string& name) {
  return !name.empty() && std::isupper(static_cast<unsigned char>(name.front())) != 0 &&
         std::all_of(name.begin(), name.end(), [](unsigned char letter) {
           return std::isalnum(letter) != 0 || letter == '/' || letter == '_' || letter == '-' ||
                  letter == '+';
         });
}

int machine_seconds_east(Instant at) {
  const std::time_t seconds = at.seconds;
  std::tm wall{};
  ::localtime_r(&seconds, &wall);
  return static_cast<int>(wall.tm_gmtoff);
}

Instant as_utc(const LocalTime& local) {
  require(local.date.has_value(), "a time of day alone is no moment");
  return {local.date->days * seconds_a_day + local.second_of_day};
}

}  // namespace

Zone::Zone() : Zone(machine_seconds_east) {}

Zone Zone::fixed(int seconds_east) {
  return Zone([seconds_east](Instant) { return seconds_east; });
}

Result<Zone> Zone::named(const std::string& name) {
  cctz::time_zone zone;
  if (!looks_like_zone(name) || !cctz::load_time_zone(name, &zone)) {
    return failure(ErrorCode::not_found,
                   "",
                   fmt::format("'{}' is no time zone; write one such as Europe/Berlin", name));
  }
  return Zone([zone](Instant at) {
    const std::chrono::time_point<std::chrono::system_clock, cctz::seconds> point{
        cctz::seconds(at.seconds)};
    return zone.lookup(point).offset;
  });
}

Date Zone::day(Instant at) const {
  const std::int64_t wall = at.seconds + seconds_east_(at);
  return {static_cast<long>((wall >= 0 ? wall : wall - seconds_a_day + 1) / seconds_a_day)};
}

LocalTime Zone::local(Instant at) const {
  const Date date = day(at);
  const std::int64_t wall = at.seconds + seconds_east_(at);
  return {date, static_cast<int>(wall - date.days * seconds_a_day)};
}

// The distance from UTC is the one before a change of clocks or the one after it. A moment by
// either is meant when the clock then stands so far from UTC.
std::vector<Instant> Zone::instants(const LocalTime& local) const {
  const Instant utc = as_utc(local);
  std::vector<Instant> found;
  for (const std::int64_t beside : {-seconds_a_day, seconds_a_day}) {
    const int east = seconds_east_(utc + beside);
    const Instant at = utc - east;
    if (seconds_east_(at) == east && (found.empty() || found.back() != at)) found.push_back(at);
  }
  std::sort(found.begin(), found.end());
  return found;
}

Instant Zone::instant(const LocalTime& local) const {
  const auto found = instants(local);
  if (!found.empty()) return found.front();
  const Instant utc = as_utc(local);
  return utc - seconds_east_(utc - seconds_a_day);
}

Instant Zone::noon(Instant at, int days_later) const {
  constexpr int noon_of_day = 12 * 3600;
  return instant({Date{day(at).days + days_later}, noon_of_day});
}

}  // namespace barm::time

#include "time/instant.h"

#include <fmt/format.h>

#include <cmath>

#include "time/internal/reader.h"
#include "time/local_time.h"
#include "time/zone.h"

namespace barm::time {

namespace {

// Where the offset of "2026-11-28T07:00+01:00" begins: what stands before it is a local time.
std::size_t begin_of_offset(std::string_view text) {
  constexpr std::size_t date_length = 10;
  return text.size() > date_length ? text.find_first_of("Z+-", date_length)
                                   : std::string_view::npos;
}

// Seconds east of UTC, from "Z", "+01:00" or "-0330".
std::optional<int> offset(std::string_view text) {
  internal::Reader reader(text);
  if (reader.take('Z')) return reader.done() ? std::optional(0) : std::nullopt;
  const int sign = reader.take('-') ? -1 : 1;
  if (sign == 1) reader.need('+');
  const int hours = reader.digits(2);
  reader.take(':');
  const int minutes = reader.digits(2);
  if (!reader.done() || hours > 24 || minutes > 59) return std::nullopt;
  return sign * (3600 * hours + 60 * minutes);
}

}  // namespace

std::string Instant::text() const {
  const LocalTime utc = Zone::fixed(0).local(*this);
  return fmt::format("{}:{:02}Z", utc.text(), utc.second_of_day % 60);
}

Instant operator+(Instant at, Time later) { return at + std::llround(later.in(second)); }

Instant to_nearest(std::int64_t seconds, Instant at) {
  const std::int64_t past = at.seconds + seconds / 2;
  return {past - ((past % seconds) + seconds) % seconds};
}

std::optional<Instant> parse_instant(std::string_view text) {
  const std::size_t end = begin_of_offset(text);
  if (end == std::string_view::npos) return std::nullopt;
  const auto local = parse_local(text.substr(0, end));
  const auto east = offset(text.substr(end));
  if (!local || !local->date || !east) return std::nullopt;
  const std::string year = local->date->text().substr(0, 4);
  if (year < "1900" || year > "2199") return std::nullopt;
  return Instant{local->date->days * seconds_a_day + local->second_of_day} - *east;
}

}  // namespace barm::time

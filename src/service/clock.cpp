#include "service/clock.h"

#include <fmt/format.h>

#include <cstdlib>

namespace barm::service {

namespace {

// A telephone's clock and this one may differ by so much.
constexpr std::int64_t slack = 300;
constexpr std::int64_t long_away = 14 * time::seconds_a_day;

std::string counted(std::int64_t number, const char* what) {
  return fmt::format("{} {}{}", number, what, number == 1 ? "" : "s");
}

}  // namespace

std::string rough_length(std::int64_t seconds) {
  const std::int64_t length = std::abs(seconds);
  if (length >= 2 * time::seconds_a_day) return counted(length / time::seconds_a_day, "day");
  if (length >= 7200) return counted(length / 3600, "hour");
  return counted(length / 60, "minute");
}

Result<std::optional<std::string>> clock_doubt(storage::Daybook& daybook, const Now& now) {
  const auto last = daybook.last_change();
  if (!last) return failure(last);
  const auto newest = daybook.changes_after(*last - 1);
  if (!newest) return failure(newest);
  if (newest->changes.empty()) return std::nullopt;
  const time::Instant written = newest->changes.back().at;
  const std::int64_t since = now.at.seconds - written.seconds;
  if (since < -slack) {
    return fmt::format(
        "the clock of this machine says {}, but the daybook was last written at {}, {} later: one "
        "of the two is wrong. If it is this clock, set it",
        now.zone.local(now.at).text(),
        now.zone.local(written).text(),
        rough_length(since));
  }
  if (since > long_away) {
    return fmt::format(
        "the clock of this machine says {}, {} after the daybook was last written. If it was not "
        "so long, set the clock; nothing goes for good by it",
        now.zone.local(now.at).text(),
        rough_length(since));
  }
  return std::nullopt;
}

}  // namespace barm::service

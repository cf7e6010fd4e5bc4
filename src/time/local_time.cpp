#include "time/local_time.h"

#include <fmt/format.h>

#include "time/internal/reader.h"

namespace barm::time {

namespace {

constexpr std::size_t date_length = 10;

// "07:00", "7:00", "07:00:00" or "07:00:00.5": seconds of the day.
std::optional<int> seconds_of(std::string_view text) {
  internal::Reader reader(text);
  const int hours = reader.digits(text.find(':') == 1 ? 1 : 2);
  reader.need(':');
  const int minutes = reader.digits(2);
  const int seconds = reader.take(':') ? reader.digits(2) : 0;
  if (reader.take('.')) reader.skip_digits();
  if (!reader.done() || hours > 23 || minutes > 59 || seconds > 59) return std::nullopt;
  return 3600 * hours + 60 * minutes + seconds;
}

}  // namespace

std::string LocalTime::of_day() const {
  return fmt::format("{:02}:{:02}", second_of_day / 3600, second_of_day / 60 % 60);
}

std::string LocalTime::text() const { return date ? date->text() + "T" + of_day() : of_day(); }

std::optional<LocalTime> parse_local(std::string_view text) {
  LocalTime local;
  const bool dated = text.size() > date_length && text[4] == '-' &&
                     (text[date_length] == 'T' || text[date_length] == ' ');
  if (dated) {
    local.date = parse_date(text.substr(0, date_length));
    if (!local.date) return std::nullopt;
    text.remove_prefix(date_length + 1);
  }
  const auto seconds = seconds_of(text);
  if (!seconds) return std::nullopt;
  local.second_of_day = *seconds;
  return local;
}

bool looks_like_clock(std::string_view text) { return text.find(':') != std::string_view::npos; }

}  // namespace barm::time

#include "time/date.h"

#include <fmt/format.h>

#include <array>
#include <chrono>

#include "time/internal/reader.h"

namespace barm::time {

namespace {

std::chrono::sys_days sys(Date date) { return std::chrono::sys_days(std::chrono::days(date.days)); }

}  // namespace

std::string Date::text() const {
  const std::chrono::year_month_day date{sys(*this)};
  return fmt::format("{:04}-{:02}-{:02}",
                     static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

std::string Date::weekday() const {
  constexpr std::array<const char*, 7> names{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  return names[std::chrono::weekday(sys(*this)).c_encoding()];
}

std::string Date::in_words() const {
  constexpr std::array<const char*, 12> months{
      "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const std::chrono::year_month_day date{sys(*this)};
  return fmt::format("{} {} {}",
                     static_cast<unsigned>(date.day()),
                     months[static_cast<unsigned>(date.month()) - 1],
                     static_cast<int>(date.year()));
}

std::optional<Date> parse_date(std::string_view text) {
  internal::Reader reader(text);
  const int year = reader.digits(4);
  reader.need('-');
  const int month = reader.digits(2);
  reader.need('-');
  const int day = reader.digits(2);
  const std::chrono::year_month_day date{std::chrono::year(year),
                                         std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day))};
  if (!reader.done() || !date.ok() || year < 1) return std::nullopt;
  return Date{static_cast<long>(std::chrono::sys_days(date).time_since_epoch().count())};
}

}  // namespace barm::time

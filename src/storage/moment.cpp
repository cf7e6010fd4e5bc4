#include "storage/moment.h"

#include <fmt/format.h>

#include <charconv>
#include <chrono>

namespace barm::storage {

namespace {

// Reads a text from the left; any miss makes it bad for good.
class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  int digits(std::size_t length) {
    int value = 0;
    if (text_.size() < length) return bad();
    for (std::size_t i = 0; i < length; ++i) {
      if (text_[i] < '0' || text_[i] > '9') return bad();
      value = 10 * value + (text_[i] - '0');
    }
    text_.remove_prefix(length);
    return value;
  }

  bool take(char c) {
    if (text_.empty() || text_.front() != c) return false;
    text_.remove_prefix(1);
    return true;
  }

  void need(char c) {
    if (!take(c)) bad();
  }

  void skip_digits() {
    while (!text_.empty() && text_.front() >= '0' && text_.front() <= '9') text_.remove_prefix(1);
  }

  [[nodiscard]] bool done() const { return good_ && text_.empty(); }

 private:
  int bad() {
    good_ = false;
    return 0;
  }

  std::string_view text_;
  bool good_ = true;
};

// Seconds east of UTC, from "Z", "+01:00" or "-0330".
int offset(Reader& reader) {
  if (reader.take('Z')) return 0;
  const int sign = reader.take('-') ? -1 : 1;
  if (sign == 1) reader.need('+');
  const int hours = reader.digits(2);
  reader.take(':');
  const int minutes = reader.digits(2);
  return sign * (3600 * hours + 60 * minutes);
}

}  // namespace

std::string Moment::text() const {
  const std::chrono::sys_seconds at{std::chrono::seconds(seconds)};
  const auto day = std::chrono::floor<std::chrono::days>(at);
  const std::chrono::year_month_day date{day};
  const auto of_day = (at - day).count();
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z",
                     static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()),
                     of_day / 3600,
                     of_day / 60 % 60,
                     of_day % 60);
}

std::optional<Moment> parse_moment(std::string_view text) {
  Reader reader(text);
  const int year = reader.digits(4);
  reader.need('-');
  const int month = reader.digits(2);
  reader.need('-');
  const int day = reader.digits(2);
  if (!reader.take(' ')) reader.need('T');
  const int hours = reader.digits(2);
  reader.need(':');
  const int minutes = reader.digits(2);
  const int seconds = reader.take(':') ? reader.digits(2) : 0;
  if (reader.take('.')) reader.skip_digits();
  const int east = offset(reader);
  if (!reader.done() || year < 1900 || year > 2199) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year(year),
                                         std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day))};
  if (!date.ok() || hours > 23 || minutes > 59 || seconds > 60 || east < -86400 || east > 86400)
    return std::nullopt;
  const std::int64_t days = std::chrono::sys_days(date).time_since_epoch().count();
  return Moment{days * a_day + (hours * 3600L) + (minutes * 60L) + seconds - east};
}

}  // namespace barm::storage

#include "formula/internal/moment.h"

#include "formula/internal/words.h"

namespace barm::formula::internal {

namespace {

/// Takes so many digits off the front as a number, or nothing.
std::optional<int> take_digits(std::string_view& text, std::size_t count) {
  if (text.size() < count) return std::nullopt;
  int value = 0;
  for (std::size_t i = 0; i < count; ++i) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    value = 10 * value + (text[i] - '0');
  }
  text.remove_prefix(count);
  return value;
}

bool take(std::string_view& text, char c) {
  if (text.empty() || text.front() != c) return false;
  text.remove_prefix(1);
  return true;
}

int days_in(int year, int month) {
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  if (month == 2) return leap ? 29 : 28;
  return month == 4 || month == 6 || month == 9 || month == 11 ? 30 : 31;
}

/// "2026-11-28" and the T or blank after it.
bool take_date(std::string_view& text) {
  const auto year = take_digits(text, 4);
  if (!year || !take(text, '-')) return false;
  const auto month = take_digits(text, 2);
  if (!month || *month < 1 || *month > 12 || !take(text, '-')) return false;
  const auto day = take_digits(text, 2);
  if (!day || *day < 1 || *day > days_in(*year, *month)) return false;
  return take(text, 'T') || take(text, ' ');
}

/// "07:00" or "07:00:00" to the end.
bool take_time(std::string_view& text) {
  const auto hours = take_digits(text, 2);
  if (!hours || *hours > 23 || !take(text, ':')) return false;
  const auto minutes = take_digits(text, 2);
  if (!minutes || *minutes > 59) return false;
  if (text.empty()) return true;
  if (!take(text, ':')) return false;
  const auto seconds = take_digits(text, 2);
  return seconds && *seconds <= 59 && text.empty();
}

}  // namespace

std::optional<std::string> local_moment(std::string_view text) {
  constexpr std::size_t date_length = 10;
  const std::string_view all = trimmed(text);
  std::string_view rest = all;
  const bool dated = all.size() > date_length && all[4] == '-';
  if (dated && !take_date(rest)) return std::nullopt;
  const std::string_view time = rest;
  if (!take_time(rest)) return std::nullopt;
  const std::string minutes(time.substr(0, 5));
  return dated ? std::string(all.substr(0, date_length)) + "T" + minutes : minutes;
}

}  // namespace barm::formula::internal

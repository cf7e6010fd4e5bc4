#include "service/words.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <chrono>
#include <cmath>

namespace barm::service {

namespace {

constexpr std::array<const char*, 7> weekdays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};

std::optional<int> number(const std::string& text, std::size_t at, std::size_t length) {
  if (at + length > text.size()) return std::nullopt;
  int value = 0;
  const char* begin = text.data() + at;
  const auto [end, error] = std::from_chars(begin, begin + length, value);
  if (error != std::errc() || end != begin + length) return std::nullopt;
  return value;
}

std::optional<long long> minute_of_day(const std::string& text, std::size_t at) {
  const auto hours = number(text, at, 2);
  const auto minutes = number(text, at + 3, 2);
  if (!hours || !minutes || text[at + 2] != ':' || *hours > 23 || *minutes > 59)
    return std::nullopt;
  return *hours * 60LL + *minutes;
}

long long quarter(Time time) { return 15 * std::llround(time.in(minute) / 15); }

std::string of_day(long long minutes) {
  const long long m = ((minutes % 1440) + 1440) % 1440;
  return fmt::format("{:02}:{:02}", m / 60, m % 60);
}

std::chrono::sys_days day_of(long long minutes) {
  return std::chrono::sys_days(
      std::chrono::days(minutes >= 0 ? minutes / 1440 : (minutes - 1439) / 1440));
}

std::string two_figures(double value) {
  const double size = std::abs(value);
  if (size >= 10 || size == 0) return fmt::format("{:.0f}", value);
  if (size >= 1) return fmt::format("{:.1f}", value);
  return fmt::format("{:.2g}", value);
}

}  // namespace

Clock::Clock(const std::string& mixed_at) {
  if (mixed_at.size() == 5) {
    minutes_ = minute_of_day(mixed_at, 0);
    return;
  }
  const auto year = number(mixed_at, 0, 4);
  const auto month = number(mixed_at, 5, 2);
  const auto day_number = number(mixed_at, 8, 2);
  const auto clock = mixed_at.size() >= 16 ? minute_of_day(mixed_at, 11) : std::nullopt;
  if (!year || !month || !day_number || !clock) return;
  const std::chrono::year_month_day date{std::chrono::year(*year),
                                         std::chrono::month(static_cast<unsigned>(*month)),
                                         std::chrono::day(static_cast<unsigned>(*day_number))};
  if (!date.ok()) return;
  minutes_ = std::chrono::sys_days(date).time_since_epoch().count() * 1440LL + *clock;
  dated_ = true;
}

std::string Clock::moment(Time after_mixing) const {
  if (!minutes_) return span(after_mixing) + " after mixing";
  const long long at = *minutes_ + quarter(after_mixing);
  const long long days = at / 1440 - *minutes_ / 1440;
  if (dated_)
    return fmt::format(
        "{} {}", weekdays[std::chrono::weekday(day_of(at)).c_encoding()], of_day(at));
  if (days == 0) return of_day(at);
  return days == 1 ? of_day(at) + " next day" : fmt::format("{}, {} days on", of_day(at), days);
}

std::string Clock::short_moment(Time after_mixing) const {
  if (!minutes_) return span(after_mixing);
  const long long at = *minutes_ + quarter(after_mixing);
  const long long days = at / 1440 - *minutes_ / 1440;
  if (days == 0) return of_day(at);
  return dated_ ? moment(after_mixing) : fmt::format("{} +{}d", of_day(at), days);
}

std::string Clock::iso(Time after_mixing) const {
  if (!minutes_ || !dated_) return "";
  const long long at = *minutes_ + std::llround(after_mixing.in(minute));
  const std::chrono::year_month_day date{day_of(at)};
  return fmt::format("{:04}-{:02}-{:02}T{}",
                     static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()),
                     of_day(at));
}

std::optional<Time> Clock::after_mixing(const std::string& local, Time earliest) const {
  const Clock other(local);
  if (!known() || !other.known()) return std::nullopt;
  if (other.dated_) {
    if (!dated_) return std::nullopt;
    return static_cast<double>(*other.minutes_ - *minutes_) * minute;
  }
  const auto of_day = static_cast<double>(*other.minutes_ - *minutes_);
  const double days = std::floor((earliest.in(minute)-of_day) / 1440) + 1;
  return (of_day + 1440 * days) * minute;
}

std::string span(Time time) {
  if (time.si() < 0) return "-" + span(-time);
  if (time >= 48.0 * hour) return fmt::format("{:.0f} h", time.in(hour));
  const long long minutes = quarter(time);
  if (minutes == 0) return "under 15 min";
  if (minutes < 60) return fmt::format("{} min", minutes);
  return minutes % 60 == 0 ? fmt::format("{} h", minutes / 60)
                           : fmt::format("{} h {:02}", minutes / 60, minutes % 60);
}

std::string grams(Mass mass) {
  const double g = mass.in(gram);
  if (std::abs(g) >= 9.95) return fmt::format("{:.0f}", g);
  if (std::abs(g) >= 0.95) return fmt::format("{:.1f}", g);
  return g == 0 ? "0" : fmt::format("{:.2f}", g);
}

std::string weight(Mass mass) {
  if (std::abs(mass.in(kilogram)) >= 10) return fmt::format("{:.1f} kg", mass.in(kilogram));
  return grams(mass) + " g";
}

std::string volume(Volume volume) {
  const double ml = volume.in(millilitre);
  if (ml >= 10000) return fmt::format("{:.1f} L", volume.in(litre));
  return ml >= 9.95 ? fmt::format("{:.0f} mL", ml) : fmt::format("{:.1f} mL", ml);
}

std::string warmth(Temperature temperature) {
  const double half = std::round(2 * temperature.celsius()) / 2;
  return half == std::floor(half) ? fmt::format("{:.0f} °C", half) : fmt::format("{:.1f} °C", half);
}

std::string share(double fraction) { return two_figures(100 * fraction) + " %"; }

std::string odds(Probability chance, int draws) {
  const double p = chance.value();
  // Of so many doughs looked at, a share of one is none.
  const double least = 0.999 / draws;
  if (p < least) return fmt::format("under 1 in {}", draws);
  if (p > 1 - least) return fmt::format("over {} in {}", draws - 1, draws);
  if (p < 0.29) {
    const double n = 1 / p;
    const double step = n < 10 ? 1 : n < 50 ? 5 : 10;
    return fmt::format("1 in {:.0f}", step * std::round(n / step));
  }
  if (p > 0.95) {
    const double n = 1 / (1 - p);
    const double step = n < 50 ? 5 : 10;
    const double of = step * std::round(n / step);
    return fmt::format("{:.0f} in {:.0f}", of - 1, of);
  }
  // The nearest of the small fractions people say.
  constexpr std::array<std::array<int, 2>, 12> said{{{1, 3},
                                                     {2, 5},
                                                     {1, 2},
                                                     {3, 5},
                                                     {2, 3},
                                                     {3, 4},
                                                     {4, 5},
                                                     {5, 6},
                                                     {9, 10},
                                                     {19, 20},
                                                     {3, 10},
                                                     {7, 10}}};
  const auto* best = said.data();
  for (const auto& fraction : said) {
    if (std::abs(fraction[0] / static_cast<double>(fraction[1]) - p) <
        std::abs((*best)[0] / static_cast<double>((*best)[1]) - p)) {
      best = &fraction;
    }
  }
  return fmt::format("{} in {}", (*best)[0], (*best)[1]);
}

std::string risen(double ratio) {
  if (std::abs(ratio - 2) < 1e-9) return "doubled";
  if (std::abs(ratio - 3) < 1e-9) return "tripled";
  if (std::abs(ratio - 1.5) < 1e-9) return "risen by half";
  return fmt::format("{} times", two_figures(ratio));
}

}  // namespace barm::service

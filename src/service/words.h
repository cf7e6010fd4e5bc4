#pragma once
// How the program says a number: as a baker would. One voice for the terminal, the page and print.
#include <optional>
#include <string>

#include "units/fraction.h"
#include "units/temperature.h"
#include "units/units.h"

namespace barm::service {

/// A place in local time from which hours are counted, as "2026-11-28T07:00" or "07:00".
class Clock {
 public:
  /// Without a time, moments are said as hours since mixing.
  Clock() = default;

  /// Range: ISO 8601 local date and time to the minute (seconds are dropped), or a time of day.
  /// Anything else gives a clock without a time.
  explicit Clock(const std::string& mixed_at);

  [[nodiscard]] bool known() const { return minutes_.has_value(); }

  /// "Sat 15:30", or "8 h 30 after mixing"; to the quarter of an hour.
  [[nodiscard]] std::string moment(Time after_mixing) const;

  /// The same, shorter: "15:30" on the day of mixing, else "Sun 03:15"; or "8 h 30".
  [[nodiscard]] std::string short_moment(Time after_mixing) const;

  /// Local date and time to the minute, "2026-11-28T15:30"; empty without a time.
  [[nodiscard]] std::string iso(Time after_mixing) const;

  /// How long after mixing a local moment is: of a time of day ("06:00") the next one after
  /// `earliest`, of a date and time ("2026-11-29T06:00") that one. Empty when the text is neither
  /// or the clock has not what it takes.
  [[nodiscard]] std::optional<Time> after_mixing(const std::string& local, Time earliest) const;

 private:
  std::optional<long long> minutes_;  // since 1970-01-01 local
  bool dated_ = false;
};

/// "5 h 15", "45 min", "under 15 min"; to the quarter of an hour, from two days on to the hour.
[[nodiscard]] std::string span(Time time);

/// "3060", "61", "4.5", "0.25": grams, to what a scale shows.
[[nodiscard]] std::string grams(Mass mass);

/// "1132 g", "4.5 g"; from 10 kg on "12.4 kg".
[[nodiscard]] std::string weight(Mass mass);

/// "712 mL", "1.2 L".
[[nodiscard]] std::string volume(Volume volume);

/// "24 °C", "24.5 °C": to half a degree.
[[nodiscard]] std::string warmth(Temperature temperature);

/// "71 %", "2.1 %": two figures.
[[nodiscard]] std::string share(double fraction);

/// "never", "1 in 50", "1 in 4", "4 of 5", "nearly always": a chance in words. `draws` is how many
/// doughs it was counted from, so that none of 400 is "under 1 in 400".
[[nodiscard]] std::string odds(Probability chance, int draws);

/// "doubled", "tripled", "risen by half", "1.8 times".
[[nodiscard]] std::string risen(double ratio);

}  // namespace barm::service

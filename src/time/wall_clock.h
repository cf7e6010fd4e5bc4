#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "time/zone.h"
#include "units/units.h"

namespace barm::time {

/// The clock on the wall of a bakery, from the moment of mixing on: true hours since mixing as what
/// the clock shows, and back.
///
/// A dough mixed at a time of day alone lies on a day without a name: its clock is never changed,
/// and later days are counted. Without a time, moments are said as hours since mixing.
class WallClock {
 public:
  WallClock() = default;

  /// Mixing at a moment.
  WallClock(Instant mixed, Zone zone);

  /// Mixing at "2026-11-28T07:00" or "07:00" on the clock of a zone; an empty text makes a clock
  /// without a time. Errors: bad_input (no such time, or left out by a change of clocks).
  [[nodiscard]] static Result<WallClock> mixed(std::string_view local, const Zone& zone);
  [[nodiscard]] static Result<WallClock> mixed(const LocalTime& local, const Zone& zone);

  [[nodiscard]] bool known() const { return mixed_.has_value(); }

  /// The moment itself; nothing without a day.
  [[nodiscard]] std::optional<Instant> instant(Time after_mixing) const;

  /// "Sat 15:30", "06:00 next day" or "8 h 30 after mixing"; to the quarter of an hour.
  [[nodiscard]] std::string moment(Time after_mixing) const;

  /// The same, shorter: "15:30" on the day of mixing, else "Sun 03:15"; or "8 h 30".
  [[nodiscard]] std::string short_moment(Time after_mixing) const;

  /// Local day and time to the minute, "2026-11-28T15:30"; empty without a day.
  [[nodiscard]] std::string iso(Time after_mixing) const;

  /// Hours since mixing of a reading at "2026-11-28T14:30" or "14:30". A time of day is the one
  /// that lies nearest to `last` within half a day, and never before mixing: readings go on past
  /// midnight. Of a time that comes twice the first that is not before `last`. Errors: bad_input.
  [[nodiscard]] Result<Time> since_mixing(std::string_view local, Time last) const;

  /// Hours from mixing to a deadline: of a time of day ("06:00") the next one after `earliest`, of
  /// a day and time that one. Nothing when the text is neither or the clock has not what it takes.
  [[nodiscard]] std::optional<Time> next(std::string_view local, Time earliest) const;

 private:
  [[nodiscard]] LocalTime shown(Instant at) const;
  [[nodiscard]] Instant quarter(Time after_mixing) const;
  [[nodiscard]] long days_on(const LocalTime& shown) const;

  std::optional<Instant> mixed_;
  bool dated_ = false;
  Zone zone_ = Zone::fixed(0);
};

}  // namespace barm::time

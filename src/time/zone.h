#pragma once
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "time/instant.h"
#include "time/local_time.h"

namespace barm::time {

/// What the clock on the bakery's wall shows at a moment, and the moments at which it shows a time.
/// Knows the nights in which clocks change: an hour may be left out, or come twice.
class Zone {
 public:
  /// The machine's own (TZ, /etc/localtime).
  Zone();

  /// An IANA name such as "Europe/Berlin". Errors: not_found.
  [[nodiscard]] static Result<Zone> named(const std::string& name);

  /// A clock that is never changed.
  [[nodiscard]] static Zone fixed(int seconds_east);

  [[nodiscard]] LocalTime local(Instant at) const;

  [[nodiscard]] Date day(Instant at) const;

  /// The moments at which the wall shows this day and time, earliest first: none in the hour that
  /// is left out, two in the one that comes twice. The time has a date.
  [[nodiscard]] std::vector<Instant> instants(const LocalTime& local) const;

  /// The first of them; of an hour that is left out, as if the clock had not been changed.
  [[nodiscard]] Instant instant(const LocalTime& local) const;

  /// 12:00 of the day so many days after the one on which the moment falls. A day on which the
  /// clock changes has 23 or 25 hours; its noon is still one day from those beside it.
  [[nodiscard]] Instant noon(Instant at, int days_later) const;

 private:
  explicit Zone(std::function<int(Instant)> seconds_east)
      : seconds_east_(std::move(seconds_east)) {}

  std::function<int(Instant)> seconds_east_;
};

}  // namespace barm::time

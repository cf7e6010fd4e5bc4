#pragma once
#include <optional>
#include <string>

#include "storage/moment.h"

namespace barm::service {

/// What the clock on the bakery's wall shows at a moment, and the moment at which it shows a time.
/// By the machine's zone, clock changes included, or a fixed distance from UTC.
class Zone {
 public:
  /// The machine's own (TZ, /etc/localtime).
  Zone() = default;

  [[nodiscard]] static Zone fixed(int seconds_east);

  /// "2026-11-28T07:00".
  [[nodiscard]] std::string local(storage::Moment moment) const;

  /// From "2026-11-28T07:00" or with seconds. An hour that comes twice is taken as its first, one
  /// that is left out as if the clock had not been changed. Nothing for what is no date and time.
  [[nodiscard]] std::optional<storage::Moment> moment(const std::string& local) const;

  /// 12:00 of the day so many days after the one on which the moment falls. A day on which the
  /// clock changes has 23 or 25 hours; its noon is still one day from those beside it.
  [[nodiscard]] storage::Moment noon(storage::Moment moment, int days_later) const;

 private:
  [[nodiscard]] int seconds_east(storage::Moment moment) const;

  std::optional<int> fixed_;
};

/// "Sat 15:30", to the quarter of an hour.
[[nodiscard]] std::string said(storage::Moment moment, const Zone& zone);

/// The clock, as whoever asks reads it: use cases read none themselves.
struct Now {
  storage::Moment at;
  Zone zone;
};

/// The machine's clock: for the terminal and the server to pass on.
[[nodiscard]] Now machine_now();

}  // namespace barm::service

#pragma once
#include <optional>
#include <string>

#include "base/result.h"
#include "formula/bake.h"
#include "time/wall_clock.h"
#include "time/zone.h"

namespace barm::service {

/// The clock, as whoever asks reads it: use cases read none themselves.
struct Now {
  time::Instant at;
  time::Zone zone;
};

/// The machine's clock: for the terminal and the server to pass on.
[[nodiscard]] Now machine_now();

/// "Sat 15:30", to the quarter of an hour.
[[nodiscard]] std::string said(time::Instant at, const time::Zone& zone);

/// The moment at which the wall shows "2026-11-28T07:00"; nothing for what is no day and time.
[[nodiscard]] std::optional<time::Instant> moment_of(const std::string& local,
                                                     const time::Zone& zone);

/// The clock on the wall from the mixing of a bake on: its own where it has one, else by its words
/// in the machine's zone. A bake that does not say when it was mixed counts in hours.
[[nodiscard]] time::WallClock clock_of(const formula::Bake& bake);

/// The same with its words in the zone of an IANA name; without a name as clock_of(). Errors:
/// not_found for the zone, bad_input for a time that a change of clocks has left out.
[[nodiscard]] Result<time::WallClock> clock_in(const std::string& zone, const formula::Bake& bake);

/// By its words alone, in a zone. Errors: bad_input for a time that a change of clocks has left
/// out.
[[nodiscard]] Result<time::WallClock> mixed_on(const formula::Bake& bake, const time::Zone& zone);

/// From that moment on, in the machine's zone.
[[nodiscard]] time::WallClock clock_from(const time::LocalTime& mixed);

}  // namespace barm::service

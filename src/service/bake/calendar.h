#pragma once
// What to do and when, as a calendar file with alarms for the telephone in a pocket (RFC 5545).
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "service/bake/foresee.h"
#include "service/now.h"

namespace barm::service {

struct CalendarRequest {
  Time alarm_before;      ///< each alarm so long before its time
  time::Instant made_at;  ///< now
  time::Zone zone;        ///< of the bakery
};

/// One thing to do.
struct CalendarEntry {
  std::string key;  ///< tells it from the others of the same bake: "ready"
  time::Instant begins;
  std::optional<time::Instant> ends;  ///< later than that
  std::string title;
  std::string words;
};

/// The bake's calendar: mixing, folds, the next look, the ready window, the stages after it. Times
/// are moments, in UTC: right in every zone, and in the nights in which clocks change. Errors:
/// bad_input when the bake does not say on which day it is mixed.
[[nodiscard]] Result<std::string> calendar(const ForeseeAnswer& answer,
                                           const CalendarRequest& request);

/// The same from any entries. `name` with an entry's key makes its UID, so that a file read in
/// again moves entries instead of doubling them.
[[nodiscard]] std::string calendar_file(const std::string& name,
                                        const std::vector<CalendarEntry>& entries,
                                        const CalendarRequest& request);

}  // namespace barm::service

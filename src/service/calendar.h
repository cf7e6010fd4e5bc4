#pragma once
// What to do and when, as a calendar file with alarms for the telephone in a pocket (RFC 5545).
#include <string>
#include <vector>

#include "base/result.h"
#include "service/now.h"
#include "service/use_cases.h"

namespace barm::service {

struct CalendarRequest {
  Time alarm_before;    ///< each alarm so long before its time
  std::string made_at;  ///< UTC, "20261128T060000Z"
  time::Zone zone;      ///< of the bakery
};

/// One thing to do, local times "2026-11-28T07:00".
struct CalendarEntry {
  std::string key;  ///< tells it from the others of the same bake: "ready"
  std::string begins, ends;
  std::string title;
  std::string words;
};

/// The bake's calendar: mixing, folds, the next look, the ready window, the stages after it. Times
/// are those of the clock on the wall wherever the telephone is. Errors: bad_input when the bake
/// does not say on which day it is mixed.
[[nodiscard]] Result<std::string> calendar(const ForeseeAnswer& answer,
                                           const CalendarRequest& request);

/// The same from any entries. `name` with an entry's key makes its UID, so that a file read in
/// again moves entries instead of doubling them.
[[nodiscard]] std::string calendar_file(const std::string& name,
                                        const std::vector<CalendarEntry>& entries,
                                        const CalendarRequest& request);

/// Now, "20261128T060000Z", for whoever asks.
[[nodiscard]] std::string utc_now();

}  // namespace barm::service

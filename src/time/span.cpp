#include "time/span.h"

#include <fmt/format.h>

#include <cmath>

namespace barm::time {

std::string span(Time time) {
  if (time.si() < 0) return "-" + span(-time);
  if (time >= 48.0 * hour) return fmt::format("{:.0f} h", time.in(hour));
  const long long minutes = 15 * std::llround(time.in(minute) / 15);
  if (minutes == 0) return "under 15 min";
  if (minutes < 60) return fmt::format("{} min", minutes);
  return minutes % 60 == 0 ? fmt::format("{} h", minutes / 60)
                           : fmt::format("{} h {:02}", minutes / 60, minutes % 60);
}

}  // namespace barm::time

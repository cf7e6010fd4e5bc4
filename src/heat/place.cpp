#include "heat/place.h"

#include <algorithm>
#include <cmath>

namespace barm::heat {

double Place::celsius_at(double hours) const {
  if (logged.empty()) {
    const double off = opens.celsius() - settles.celsius();
    const double half = halves.in(hour);
    return settles.celsius() + (half > 0 ? off * std::exp2(-hours / half) : 0);
  }
  const auto after = std::upper_bound(
      logged.begin(), logged.end(), hours, [](double h, const ProbeReading& reading) {
        return h < reading.at.in(hour);
      });
  if (after == logged.begin()) return after->temperature.celsius();
  const ProbeReading& before = *(after - 1);
  if (after == logged.end()) return before.temperature.celsius();
  const double part = (hours - before.at.in(hour)) / (after->at - before.at).in(hour);
  return before.temperature.celsius() +
         part * (after->temperature.celsius() - before.temperature.celsius());
}

}  // namespace barm::heat

#pragma once
// Where a dough stands: how warm the air around it is, and how that changes.
#include <vector>

#include "heat/track.h"

namespace barm::heat {

/// A room, a box, a fridge. Its air is at one temperature; or it was let in warmer and comes back,
///
///     T(t) = settles + (opens - settles) exp(-t ln 2 / halves)
///
/// as a fridge does that was loaded with warm dough; or a logger was read.
struct Place {
  Temperature settles = Temperature::from_celsius(24);
  Temperature opens = settles;            ///< when the dough comes in
  Time halves = {};                       ///< until half of the difference is gone; zero: at once
  std::vector<ProbeReading> logged = {};  ///< where not empty, instead; straight lines between

  /// The air's temperature [C] so many hours after the dough came in.
  [[nodiscard]] double celsius_at(double hours) const;
};

/// The heat that fermentation gives off.
struct Warming {
  double from = 0;      ///< [h]
  double per_mass = 0;  ///< [W/kg] from here on, in a straight line to the next
};

}  // namespace barm::heat

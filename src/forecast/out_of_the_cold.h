#pragma once
// A piece that proofs in the cold: straight from there into the oven or not, and how long it may
// stay.
#include <cstddef>
#include <optional>

#include "forecast/spread.h"
#include "units/fraction.h"
#include "units/temperature.h"

namespace barm::forecast {

/// With less room to rise into a piece is ripe for the oven, with more it is young: lines of ours,
/// guesses (oven.md).
inline constexpr double ripe_below = 0.1, young_above = 0.9;

/// Of the draws that get through it; a draw is done standing when it is no longer young, and has
/// been in the cold too long when it has less room than a ripe one.
struct OutOfTheCold {
  std::size_t stage = 0;       ///< the cold, of Timeline::stages
  Time planned;                ///< so long it is in the cold, in the middle
  Temperature room;            ///< where a piece stands that is not ready yet
  Probability straight;        ///< that it goes straight into the oven
  Probability too_long;        ///< that it is ripe before it comes out
  Spread stand;                ///< in the room; empty where 6 h there do not do
  Spread may_stay;             ///< in the cold, from going in; empty: beyond the horizon
  std::optional<Time> stands;  ///< as the bake has it already
};

}  // namespace barm::forecast

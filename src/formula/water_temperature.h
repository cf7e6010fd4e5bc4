#pragma once
// How warm the water must be for the dough to come out as wanted.
#include <optional>

#include "base/result.h"
#include "units/temperature.h"
#include "units/units.h"

namespace barm::formula {

/// What meets in the mixer.
struct Mixing {
  Temperature dough;  ///< wanted
  Temperature flour, room;
  std::optional<Temperature> levain;
  TemperatureDifference friction;  ///< what the mixer adds to the sum, as bakers count it
};

/// The factor method of the trade: as many times the wanted temperature as there are things that
/// bring heat, less what the others bring.
///
///     t_water = n t_dough - (t_flour + t_room [+ t_levain]) - friction,   n = 3 [4]
///
/// Errors: cannot_be_met below -5 C (even ice will not do) or above 55 C (it would kill the
/// culture). Checked against: tests/truth/bakery_examples_test.cpp.
[[nodiscard]] Result<Temperature> water_temperature(const Mixing& mixing);

/// How much of the water to weigh as ice so that ice and tap water together come to `wanted`:
///
///     m_ice = m c (t_tap - t) / (L + c t_tap),   t in C
///
/// Zero when the tap is no warmer than wanted. Errors: bad_input for tap water below 0 C,
/// cannot_be_met for a wanted temperature below 0 C. Source: data/water.toml. Checked against:
/// tests/truth/bakery_examples_test.cpp.
[[nodiscard]] Result<Mass> ice(Mass water, Temperature tap, Temperature wanted);

}  // namespace barm::formula

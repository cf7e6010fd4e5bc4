#pragma once
// What meets in the mixer and how warm it comes out: a balance of heat.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "heat/material.h"
#include "units/units.h"

namespace barm::heat {

using Power = decltype(joule / second);

/// One thing that goes in.
struct Poured {
  std::string name;
  Mass mass;
  HeatCapacity capacity;
  Temperature temperature = Temperature::from_celsius(20);
};

/// The mixer at work.
struct Mixer {
  decltype(watt / kilogram) friction{};  ///< heat it gives the dough, per kilogram of it
  Time runs;
  double room_share = 0;  ///< share of the way to the room's temperature that bowl and air take it
  Temperature room = Temperature::from_celsius(22);
};

/// Where the degrees come from.
struct Warmth {
  Temperature dough;
  TemperatureDifference by_mixing_alcohol, by_friction, by_ice, by_room;
};

/// How warm the dough comes out.
///
///     T = ( sum m c T_i - m_ice (L + c_w (0 - T)) + Q_mixing + f m t ) / sum m c
///     T' = T + s (T_room - T)
///
/// Q_mixing is chemistry::heat_of_mixing() of the whole's alcohol and water less that of each drink
/// apart. Checked against: tests/heat/mixer_test.cpp.
[[nodiscard]] Warmth mixed(std::span<const Poured> poured,
                           Mass ice,
                           Energy heat_of_mixing,
                           const Mixer& mixer);

/// What the liquids must be for the dough to come out as wanted.
struct LiquidWanted {
  Temperature liquid;  ///< of all that may be chilled or warmed together
  Mass ice;  ///< instead of so much of the water, where the water would be below `coldest`
};

/// `free` are the places in `poured` of what may be chilled or warmed; ice takes the place of the
/// one at `water`, when the free would have to be colder than `coldest`. Errors: cannot_be_met when
/// all the water as ice would not do, or it would be hotter than 55 C.
[[nodiscard]] Result<LiquidWanted> liquid_for(Temperature dough,
                                              std::vector<Poured> poured,
                                              const std::vector<std::size_t>& free,
                                              std::optional<std::size_t> water,
                                              Temperature coldest,
                                              Energy heat_of_mixing,
                                              const Mixer& mixer);

/// A thermometer held into the dough while the mixer runs.
struct MixerReading {
  Time after;
  Temperature dough;
};

/// What a mixer gives: the slope of its readings times the dough's capacity.
///
///     f = c dT/dt,   least squares over all readings
///
/// `spread` is its standard error from the thermometer's own 0.3 K (practice), or from what is left
/// between line and readings where that is more. Errors: bad_input with fewer than two readings, or
/// all at one time, or a dough that grows colder.
struct Friction {
  decltype(watt / kilogram) power;
  decltype(watt / kilogram) spread;
  TemperatureDifference off;  ///< of the readings from the line; 0 where two tell nothing of it
};

inline constexpr double poor_line = 1;  ///< [K] off: the readings lie on no line

[[nodiscard]] Result<Friction> learn_friction(std::span<const MixerReading> readings,
                                              HeatCapacity capacity);

}  // namespace barm::heat

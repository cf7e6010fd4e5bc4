#pragma once
// A fridge whose air warms when it is loaded, and the doughs in it.
#include <optional>
#include <vector>

#include "base/result.h"
#include "heat/conduction.h"

namespace barm::heat {

/// What a fridge can do.
struct Fridge {
  Temperature set = Temperature::from_celsius(4);
  double power = 120;      ///< [W] that it takes out of its air at most
  double capacity = 20e3;  ///< [J/K] of air, shelves and walls
};

/// What data/fridge.toml has for a household's.
[[nodiscard]] Fridge usual_fridge();

struct Chilled {
  double hours = 0, air = 0, middle = 0, mean = 0;  ///< [C]
};

/// So many equal bodies that come in at once, with heat of their own.
struct Load {
  Body body;
  Mass each;
  int pieces = 1;
  Temperature start = Temperature::from_celsius(24);
  double warming = 0;  ///< [W/kg] as they come in; fades as they cool, by half every 8 K
};

/// The air and the doughs together:
///
///     C dT/dt = n h A (T_surface - T) - P clamp((T - T_set)/1 K, 0, 1)
///
/// each dough by warm(), in steps of 3 min. Checked against: tests/heat/fridge_test.cpp.
[[nodiscard]] std::vector<Chilled> chill(const Fridge& fridge, const Load& load, Time lasts);

/// The most pieces whose middle is no warmer than `wanted` after `within`; 0: not even one.
[[nodiscard]] int most_at_once(
    const Fridge& fridge, Load load, Temperature wanted, Time within, int look_to = 400);

/// A fridge learned from a probe in its air, from the moment the load came in; `air_off` is what is
/// left, root mean square [K]. Power and capacity in proportion, with the doubt of data/fridge.toml
/// before any reading; a file that fits worse than 0.5 K is believed no further than it fits.
/// Errors: bad_input (a probe's file shorter than an hour).
inline constexpr double poor_air = 1;  ///< [K] off: it fits no fridge well

struct LearnedFridge {
  Fridge fridge;
  double air_off = 0;
};

[[nodiscard]] Result<LearnedFridge> learn_fridge(const std::vector<ProbeReading>& air,
                                                 const Load& load);

}  // namespace barm::heat

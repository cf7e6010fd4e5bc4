#pragma once
// A drink on the stove: what leaves it, in how many minutes, and what is left.
#include <optional>
#include <vector>

#include "base/result.h"
#include "larder/composition.h"
#include "units/temperature.h"
#include "units/units.h"

namespace barm::drink {

using Power = decltype(joule / second);

/// The pan and its fire.
struct Pan {
  Mass drink = 1.0 * kilogram;  ///< that goes in
  Power heat = 1000.0 * watt;   ///< that reaches the liquid
  Temperature start = Temperature::from_celsius(20);
};

/// One moment of it.
struct Boiling {
  Time after;
  Mass left;
  Temperature temperature;
  AlcoholByVolume strength;  ///< of the water and alcohol that are left
};

struct Simmered {
  larder::Composition left;     ///< of what is left, per kilogram
  Mass mass;                    ///< of it
  Time to_the_boil, lasts;      ///< `lasts` includes the way to the boil
  Mass alcohol_out, water_out;  ///< as vapour
  double acetic_kept = 1;       ///< of what went in, 0..1
  std::vector<Boiling> course;
};

/// Where to stop: at a share of the weight that went in, or at a strength; the one that comes
/// first.
struct Until {
  double share = 0;          ///< of the weight, 0..1
  AlcoholByVolume strength;  ///< 0: whatever it is
};

/// Batch distillation at 1 atm, the vapour in equilibrium with what boils and nothing falling back:
///
///     dE/ds = -y,   dW/ds = -(1 - y)          s: mass that has left, y by mass, boiling_point()
///     dt/ds = (y L_e + (1 - y) L_w + m c dT/ds) / heat
///     d ln A / d ln W = a u                   acetic acid: a 0.7, u its undissociated share
///
/// The solids stay. Sulphite is left as it is: how much of it a pan drives out is not known.
/// Errors: bad_input (no drink, no heat, a share outside 0..1), cannot_be_met when all water would
/// have to go. Source: dechema_vle, poling2001, crc_handbook. Checked against:
/// tests/truth/simmer_test.cpp, tests/drink/simmer_test.cpp.
[[nodiscard]] Result<Simmered> simmer(const larder::Composition& drink,
                                      const Pan& pan,
                                      const Until& until);

/// What a medium ring gives a pan (data/drink.toml).
[[nodiscard]] Power usual_heat();

/// The flash point of a mixture that is `ethanol` by mass, between the table's rows; empty below
/// the weakest. Source: flash_points.
[[nodiscard]] std::optional<Temperature> flash_point(MassFraction ethanol);

}  // namespace barm::drink

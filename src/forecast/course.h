#pragma once
// One run of one dough: how it rises, when it passes what matters, and how it stands at the end.
#include <limits>
#include <optional>
#include <vector>

#include "base/result.h"
#include "generated/constants.h"
#include "heat/track.h"
#include "kinetics/dough.h"
#include "kinetics/parameter.h"
#include "kinetics/state.h"
#include "numerics/dormand_prince.h"
#include "units/temperature.h"
#include "units/units.h"

namespace barm::forecast {

/// Something a baker does to the dough at a time after mixing.
struct Handling {
  Time at;
  double gas_out = 0;  ///< share of the bubbles' gas that leaves, 0..1
};

/// A dough taken up as it stands, instead of freshly mixed: the run's time 0 is then that moment.
struct Beginning {
  kinetics::StateOf<double> state{};
  double volume = 0;                         ///< [L/kg] at mixing: what a rise is measured against
  std::optional<double> top = std::nullopt;  ///< the largest rise, when it is past its best already
  std::optional<double> start_celsius =
      std::nullopt;  ///< at mixing; empty: the one at which the run begins
};

/// What to run: a temperature from mixing to the end, with folds.
struct Proving {
  Temperature temperature = Temperature::from_celsius(24);
  heat::Track track = {};  ///< where not empty, instead of the one temperature
  Time horizon = 72.0 * hour;
  double target = 2.0;              ///< volume ratio that counts as ready
  Time ready_from;                  ///< not before the bulk begins; not for many at once
  std::vector<Handling> handlings;  ///< ascending in time
  std::optional<Beginning> beginning = std::nullopt;  ///< not for many at once
  double surface = 1;  ///< surface over that of a tub of the same dough
  double sour_at = constants::caution::mild.value.value();  ///< pH whose passing is noted
  double least_room = -1;       ///< the run ends where less room is left to rise into; -1: never
  bool stop_at_target = false;  ///< end there; peak and window are then unknown
  bool stop_collapsed = false;  ///< end there: what comes later is not wanted
  Time sample_every = 0.25 * hour;  ///< of the curve; zero for none
  numerics::Accuracy accuracy{};    ///< time unit: hours
};

/// A point of the curve.
struct Sample {
  double hours = 0;
  double rise = 1;  ///< volume over the volume at mixing
  double ph = 6;
  double fermented = 0;  ///< [mmol hexose/kg] so far
};

/// What came of it. Times are since mixing; empty when it did not happen before the horizon.
struct Course {
  std::optional<Time> fifth;      ///< risen by a fifth
  std::optional<Time> ready;      ///< the target reached
  std::optional<Time> peak;       ///< largest volume: past its best from here on
  std::optional<Time> collapsed;  ///< back to 85 % of the largest rise above the start
  std::optional<Time> sour;       ///< pH has fallen to the one of Proving::sour_at
  double largest_rise = 1;
  double least_room = std::numeric_limits<double>::infinity();  ///< that was left to rise into
  std::vector<Sample> curve;
  kinetics::StateOf<double> at_ready{};
  kinetics::StateOf<double> at_end{};
  Time end;
  numerics::Statistics statistics;
};

/// The temperatures of the run: the track, or the one temperature.
[[nodiscard]] heat::Track track_of(const Proving& proving);

/// Runs a dough. Where the temperature steps, so does the volume: the gas swells or shrinks, some
/// of it dissolves, and what is passed in the step is passed at its time. Errors: no_convergence
/// when the integrator gives up.
[[nodiscard]] Result<Course> run(const kinetics::Dough& dough,
                                 const kinetics::Parameters<double>& parameters,
                                 const Proving& proving);

}  // namespace barm::forecast

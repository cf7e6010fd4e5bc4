#pragma once
// An oven learned from a core probe and a weighed loaf.
#include <optional>
#include <vector>

#include "heat/track.h"
#include "oven/bake.h"

namespace barm::oven {

/// One bake that was measured.
struct Measured {
  Loaf loaf;
  Oven oven;
  Time lasts;
  std::vector<heat::ProbeReading> core;  ///< since it went in; may be empty
  std::optional<double> loss;            ///< of the dough's mass, weighed; 0..1
};

/// From so far off on the bakes it was learned from fit no oven well.
inline constexpr double poor_core = 3;      ///< [K], half as much again as a good probe's 2
inline constexpr double poor_loss = 0.015;  ///< of the dough: three times a scale's doubt

struct Learned {
  LearnedOven known;
  std::optional<double> core_off;  ///< [K] of the probed bake that fits worst: root mean square
  std::optional<double> loss_off;  ///< of the last that was weighed: weighed less forecast, 0..1
};

/// The mode of  sum (core - read)^2/s_T^2 + (loss - weighed)^2/s_m^2 + |luck|^2  over the four
/// doubts of an oven, by Gauss and Newton with halved steps, and the doubt left by the curvature
/// there. The readings of a core hang together, so that they count as one every five minutes. s_T
/// is 2 K, s_m half a point. Where a bake fits worse, what is off beyond that counts as one error
/// of all its readings, found in rounds: a file that fits no oven moves little and leaves the doubt
/// there was.
/// Errors: bad_input (nothing measured, a loss outside 1 to 40 %), no_convergence.
[[nodiscard]] Result<Learned> learn(const std::vector<Measured>& bakes);

}  // namespace barm::oven

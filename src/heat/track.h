#pragma once
// How warm a dough is from mixing on, as the kinetics take it: one temperature after another.
//
//     const Track track = Track::through(readings);       // a logger's file, straight lines
//     between proving.track = track;                              // forecast::run at these
//     temperatures
#include <span>
#include <vector>

#include "units/temperature.h"
#include "units/units.h"

namespace barm::heat {

/// A temperature read at a time after mixing.
struct ProbeReading {
  Time at;
  Temperature temperature;
};

/// From here on, until the next segment begins, the dough has this temperature.
struct Segment {
  double from = 0;     ///< [h] after mixing
  double celsius = 0;  ///< [C]
};

/// A temperature in steps. Within a step the speed of everything is constant, so that the terms of
/// the right-hand side are worked out once a step. A step spans at most `step` of temperature and
/// has the mean of what it replaces: with yeast half as fast 8 K lower, a step of 0.5 K misstates
/// the work done in it by (ln 2/8)^2 0.5^2/24, less than a ten-thousandth.
class Track {
 public:
  static constexpr double usual_step = 0.5;     // K
  static constexpr double step_for_many = 1.0;  // K: three ten-thousandths

  /// No temperature at all; a run then takes its constant one.
  Track() = default;

  /// The same temperature throughout.
  explicit Track(Temperature constant) : segments_{{0, constant.celsius()}} {}

  /// Steps along the straight lines between readings, flat before the first and after the last.
  /// Needs at least one; times ascend (two at one time: a jump), finite. `step` in kelvin.
  [[nodiscard]] static Track through(std::span<const ProbeReading> readings,
                                     double step = usual_step);

  /// These segments; the first is taken to begin at 0. Ascending in time.
  [[nodiscard]] static Track of(std::vector<Segment> segments);

  [[nodiscard]] bool empty() const { return segments_.empty(); }

  [[nodiscard]] std::span<const Segment> segments() const { return segments_; }

  /// At so many hours after mixing. The track is not empty.
  [[nodiscard]] double celsius_at(double hours) const;

  /// The mean from 0 to `hours`. The track is not empty.
  [[nodiscard]] double mean_celsius(double hours) const;

  /// The same temperatures, from `hours` on: what was at `hours` is at 0.
  [[nodiscard]] Track after(double hours) const;

  /// This track to `hours`, then the other one from its beginning.
  [[nodiscard]] Track then(double hours, const Track& other) const;

 private:
  std::vector<Segment> segments_;
};

}  // namespace barm::heat

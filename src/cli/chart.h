#pragma once
#include <string>
#include <utility>
#include <vector>

#include "forecast/ensemble.h"
#include "time/wall_clock.h"

namespace barm::cli {

/// The rise of a dough in characters, 80 columns wide: the band in which four of five such doughs
/// rise, the middle one, the target as a line. Ends when nine of ten are ready or past it, at the
/// latest at the horizon.
[[nodiscard]] std::vector<std::string> rise_chart(const forecast::Forecast& forecast,
                                                  const time::WallClock& clock);

/// What a chart of a dough that has been read shows.
struct ReadChart {
  const std::vector<forecast::Band>& before;
  const std::vector<forecast::Band>& after;
  const std::vector<std::pair<double, double>>& readings;  ///< hours, height over the start mark
  double target;
  double last_hour;
};

/// The same for a dough that has been read: the band before its readings and the one after, the
/// middle dough, the readings themselves.
[[nodiscard]] std::vector<std::string> read_chart(const ReadChart& chart,
                                                  const time::WallClock& clock);

/// The ready window as a ruler: earliest, most likely and latest of four of five doughs.
[[nodiscard]] std::string window_ruler(const forecast::Spread& ready,
                                       const time::WallClock& clock,
                                       int width);

}  // namespace barm::cli

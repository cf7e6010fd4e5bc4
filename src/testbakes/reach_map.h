#pragma once
// The reach map: the chance that the dough is ready within the time allowed, over the share of a
// drink and one more thing that a baker may change.
#include <functional>
#include <string>
#include <vector>

#include "forecast/ensemble.h"
#include "forecast/field.h"
#include "numerics/random.h"

namespace barm::testbakes {

/// What the second axis is.
enum class Upward { temperature, starter, time };

/// "temperature", "starter", "time"
[[nodiscard]] std::string_view name(Upward upward);

struct MapQuestion {
  std::string drink;  ///< of the bowl; empty: the one that brings most alcohol
  Upward upward = Upward::temperature;
  double least = 18, most = 32;  ///< [C], starter as a share of flour, or [h]
  Time within = 14.0 * hour;     ///< not used where time is the second axis
  int columns = 49, rows = 25;
  int draws = 200;
  unsigned long long seed = 1;
  int threads = 0;
  double target = 0;                                         ///< volume ratio; 0: the bake's own
  const kinetics::JointPrior* prior = &kinetics::day_one();  ///< of the culture
  std::function<bool()> cancelled;
};

struct ReachMap {
  MapQuestion question;
  std::string drink;
  forecast::Field field;  ///< over shares of the liquid from none to `room`
  double room = 1;        ///< the drink and the water together
  double now_share = 0;   ///< where the bake stands itself
  double now_up = 0;
  double chance_now = 0;
};

/// The chance in every cell; the same draws in all. `show` is told each picture as it gets better.
/// What a starter of another share weighs more comes off flour and liquid, so that the dough stays.
/// Errors: not_found (no such drink), bad_input (ranges that cannot be), as foresee_many().
/// Checked against: tests/testbakes/reach_map_test.cpp.
[[nodiscard]] Result<ReachMap> reach_map(const formula::Bake& bake,
                                         const MapQuestion& question,
                                         const forecast::ShowField& show = {});

/// A line along which a field has one value: points in cells, (0,0) the first cell's middle.
struct Contour {
  struct Point {
    double column = 0, row = 0;
  };

  double level = 0.5;
  std::vector<Point> points;
  bool closed = false;
};

/// The lines of one level, by straight lines through each cell (marching squares); where a cell is
/// a saddle its middle decides.
[[nodiscard]] std::vector<Contour> contours(const forecast::Field& field, double level);

}  // namespace barm::testbakes

#pragma once
// The chance of being ready in time, over two things a baker may change: a dose and a temperature,
// say.
//
// The same draws are used in every cell, so each draw has a region where it is ready in time, and
// the chance in a cell is the share of regions that hold it. Only the borders of the regions are
// followed: a block of cells whose known cells agree for a draw is taken to agree throughout, and
// is split where they do not.
#include <cstdint>
#include <functional>
#include <vector>

#include "base/result.h"
#include "forecast/many.h"

namespace barm::forecast {

/// Evenly spaced values from the first to the last, both included.
struct Axis {
  double first = 0, last = 1;
  int count = 64;

  [[nodiscard]] double at(int i) const {
    return first + (last - first) * i / (count > 1 ? count - 1 : 1);
  }
};

struct FieldQuestion {
  FieldQuestion() { many.precision = Precision::single; }

  Axis across, up;
  Time within = 24.0 * hour;
  int draws = 200;
  int coarsest = 8;  ///< cells between the points of the rough picture
  int checked = 24;  ///< cells computed in full to see how far the picture is off
  ManyOptions many;  ///< target, folds, threads, cancelled; its horizon, early end and progress are
                     ///< set here
};

/// A picture of the chance, row after row from up.first.
struct Field {
  int columns = 0, rows = 0;
  std::vector<double> chance;
  /// Largest difference from the same draws computed in every cell, as seen in the cells that were
  /// checked; in a rough picture, before any check, the largest difference between neighbouring
  /// points of it. What comes on top for having so many draws and no more is sqrt(p (1 - p) /
  /// draws).
  double error = 1;
  std::size_t forecasts = 0;  ///< run so far
  bool finished = false;

  [[nodiscard]] double at(int column, int row) const {
    return chance[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                  static_cast<std::size_t>(column)];
  }
};

/// Makes the case of one draw at one place; called from several threads at once.
using FillFieldCase = std::function<void(double across, double up, int draw, Case& to_fill)>;

/// Told each picture as it gets better, the rough one first; from the thread that asked.
using ShowField = std::function<void(const Field&)>;

/// The chance in every cell. Errors: as foresee_many(). Checked against:
/// tests/forecast/field_test.cpp.
[[nodiscard]] Result<Field> chance_field(const FieldQuestion& question,
                                         const FillFieldCase& fill,
                                         const ShowField& show = {});

}  // namespace barm::forecast

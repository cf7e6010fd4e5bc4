#pragma once
// Many doughs like this one: the same bake with what is not known drawn anew each time.
#include <functional>
#include <optional>
#include <vector>

#include "base/result.h"
#include "forecast/course.h"
#include "forecast/made.h"
#include "forecast/options.h"
#include "forecast/timeline.h"
#include "formula/bowl.h"

namespace barm::forecast {

/// The band of the rise at one moment.
struct Band {
  double hours = 0;
  double p10 = 1, p50 = 1, p90 = 1;
};

struct Forecast {
  Timeline timeline;  ///< of all draws
  Spread ready;       ///< its own: the end of the bulk
  Spread fifth;       ///< risen by a fifth
  Spread past;        ///< past its best, left in the bulk
  Spread sour;        ///< pH has fallen to the one of Proving::sour_at
  Probability never;  ///< not ready within the horizon
  Time horizon;
  double target = 2;
  double largest_rise = 1;       ///< half of the draws rise further, left in the bulk
  Range limit;                   ///< the largest rise of the draws, left in the bulk
  Spread fallen;                 ///< back to 85 % of it: the end of the window that begins at READY
  double held_by_pentosans = 0;  ///< share of what its flour can hold that no gluten holds
  std::vector<double> largest_rises;  ///< of every draw
  std::vector<Band> band;
  std::vector<double> ready_hours;  ///< of every draw, ascending; infinite when never
  formula::Bowl bowl;               ///< with every number at its middle, the levain as fermented
  std::vector<larder::Composition> settled;  ///< its compositions
  std::optional<std::string>
      guess_that_decides;  ///< a line for the answer; empty where no guess does (rests_on.h)
  int draws = 0;
};

/// How the dough is proved up to the end of its first bulk: the bulk's temperature, its begin, its
/// folds, the target. How the dough follows its place stands in forecast/warmth.h.
[[nodiscard]] Proving proving_of(const formula::Bake& bake, const Options& options);

/// Errors: bad_input (from the bowl), no_convergence, cancelled.
[[nodiscard]] Result<Forecast> foresee(const formula::Bake& bake, const Options& options = {});

/// The same of a bowl that more is asked of. Errors: as foresee().
[[nodiscard]] Result<Forecast> foresee(const formula::Bake& bake,
                                       const Options& options,
                                       Made& made);

/// What somebody who plans asks of every draw, in their order [h] after mixing; infinite when
/// never.
struct DoughHours {
  std::vector<double> ready;      ///< the end of the first bulk
  std::vector<double> past;       ///< past its best, left in that bulk
  std::vector<double> oven;       ///< the end of its last stage
  std::vector<double> oven_past;  ///< past its best where it waits for the oven, if within `wait`
};

/// The same doughs as foresee()'s, for less. Errors: as foresee().
[[nodiscard]] Result<DoughHours> dough_hours(const formula::Bake& bake,
                                             const Options& options,
                                             Time wait,
                                             Made& made);

/// The same doughs through their stages and nothing besides: no curves, no dough left in its bulk.
/// Errors: as foresee().
[[nodiscard]] Result<Timeline> way_alone(const formula::Bake& bake, const Options& options);

/// The middle dough alone, for what needs a whole dough and not its hours.
struct MiddleDough {
  formula::Bowl bowl;  ///< the levain as fermented
  std::vector<larder::Composition> settled;
  Course book;              ///< its run, left in the bulk
  std::vector<Stop> stops;  ///< its way through the stages
  double target = 2;
};

/// No dough is drawn. Errors: as foresee().
[[nodiscard]] Result<MiddleDough> foresee_middle(const formula::Bake& bake,
                                                 const Options& options = {});

/// The bowl of the middle dough. Errors: bad_input.
[[nodiscard]] Result<formula::Bowl> middle_bowl(const formula::Bake& bake,
                                                const Options& options = {});

/// Hours to the target of each draw in order of the draws (not sorted), infinite when never, also
/// where the bake gives its bulk a time: for comparing doses with the same luck. `but`: without
/// these factors in the bowl. `change` is done to every dough before it runs.
using ChangeDough = void (*)(kinetics::Dough&, kinetics::Parameters<double>&);
[[nodiscard]] Result<std::vector<double>> hours_to_ready(
    const formula::Bake& bake,
    const Options& options,
    const std::vector<kinetics::Factor>& but = {},
    ChangeDough change = nullptr);

/// The same of a bowl that more is asked of. Errors: as foresee().
[[nodiscard]] Result<std::vector<double>> hours_to_ready(const formula::Bake& bake,
                                                         const Options& options,
                                                         const std::vector<kinetics::Factor>& but,
                                                         Made& made);

}  // namespace barm::forecast

#pragma once
// Many doughs like this one: the same bake with what is not known drawn anew each time.
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "base/result.h"
#include "forecast/course.h"
#include "forecast/draw.h"
#include "forecast/journey.h"
#include "forecast/spread.h"
#include "formula/bowl.h"

namespace barm::forecast {

struct Options {
  int draws = 400;
  unsigned long long seed = 1;
  Time horizon = 72.0 * hour;
  int threads = 0;                                           ///< 0: as many as the machine has
  double target = 0;                                         ///< volume ratio; 0: the bake's own
  std::optional<Temperature> temperature = std::nullopt;     ///< instead of the bake's own bulk
  const kinetics::JointPrior* prior = &kinetics::day_one();  ///< or kinetics::by_the_book()
  bool curves = true;
  std::function<bool()> cancelled = nullptr;       ///< asked now and then; true stops the work
  std::function<void(double)> progress = nullptr;  ///< told the share done, ascending
};

/// The band of the rise at one moment.
struct Band {
  double hours = 0;
  double p10 = 1, p50 = 1, p90 = 1;
};

struct Forecast {
  Spread ready;
  Spread fifth;       ///< risen by a fifth
  Spread past;        ///< past its best
  Probability never;  ///< not ready within the horizon
  Time horizon;
  double target = 2;
  double largest_rise = 1;  ///< of the middle draw
  std::vector<Band> band;
  std::vector<double> ready_hours;           ///< of every draw, ascending; infinite when never
  Course book;                               ///< the run with every number at its middle
  std::vector<Stop> stops;                   ///< that run through the bake's stages
  formula::Bowl bowl;                        ///< the bowl of that run, the levain as fermented
  std::vector<larder::Composition> settled;  ///< its compositions
  std::optional<std::string>
      guess_that_decides;  ///< a line for the answer; empty where no guess does (rests_on.h)
  int draws = 0;
};

/// How the bake says it is proved: the bulk's temperature, its folds, the target. How the dough
/// follows its place stands in forecast/warmth.h.
[[nodiscard]] Proving proving_of(const formula::Bake& bake, const Options& options);

/// `made`: the first draws, where ready_for() has made them of the same bowl already. Errors:
/// bad_input (from the bowl), no_convergence, cancelled.
[[nodiscard]] Result<Forecast> foresee(const formula::Bake& bake,
                                       const Options& options = {},
                                       std::span<const Draw> made = {});

/// The middle dough alone: its bowl, its run and its stages; no dough is drawn, and nothing is said
/// of `ready` and what else rests on many. Errors: as foresee().
[[nodiscard]] Result<Forecast> foresee_middle(const formula::Bake& bake,
                                              const Options& options = {});

/// Hours to ready of each draw in order of the draws (not sorted), infinite when never: for
/// comparing doses with the same luck.
[[nodiscard]] Result<std::vector<double>> hours_to_ready(const formula::Bake& bake,
                                                         const Options& options);

}  // namespace barm::forecast

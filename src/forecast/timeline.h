#pragma once
// What follows from a dough: when each stage begins and ends, how it stands then, what to do next.
// Every number is told of many draws of which each went the whole way.
#include <functional>
#include <limits>
#include <optional>
#include <vector>

#include "base/result.h"
#include "forecast/journey.h"
#include "forecast/many.h"
#include "forecast/out_of_the_cold.h"
#include "forecast/plan.h"
#include "forecast/spread.h"

namespace barm::forecast {

inline constexpr Range untold{std::numeric_limits<double>::quiet_NaN(),
                              std::numeric_limits<double>::quiet_NaN(),
                              std::numeric_limits<double>::quiet_NaN()};

/// One stage of the plan.
struct StageTimes {
  formula::Step step = formula::Step::bulk;
  std::optional<std::size_t> in_file;  ///< its place in the bake file
  bool done = false;
  int load = 0;         ///< of the oven, 1 the first; 0: not of the oven or the rack
  Spread begin, end;    ///< after mixing
  Probability reached;  ///< share of draws that get through it before the horizon
  // As it ends, of those draws; NaN for mixing and folds, which are told by their hour alone.
  Range rise = untold, ph = untold;
  Range room_left = untold;   ///< how much further it could rise before it leaks
  Range celsius = untold;     ///< of the dough
  std::vector<double> rooms;  ///< room_left of each draw; NaN where it did not get there
};

/// Something for hands to do.
enum class Act {
  mix,
  fold,
  divide,
  shape,
  into_the_cold,
  out_of_the_cold,
  into_the_oven,
  out_of_the_oven,
  cut,
  bag
};

/// Where it is not done at its time the dough goes on without it.
[[nodiscard]] bool can_be_missed(Act act);

struct ToDo {
  Act act = Act::mix;
  std::size_t stage = 0;  ///< of Timeline::stages; its size for an oven that is no stage
  bool done = false;
  Spread at;
  int load = 0;  ///< of the oven, 1 the first; 0: of all of it
};

/// What becomes of the loaves of one load, where the bake has an [oven] (oven_stages.h).
struct Bread {
  Spread in, out, cut, bag;
};

struct Timeline {
  std::vector<StageTimes> stages;  ///< in the order of the plan
  std::vector<ToDo> to_do;         ///< in order of time
  Spread ready;                    ///< the end of the first bulk
  Spread oven;                     ///< the end of the last stage of the dough
  std::vector<Bread> bread;        ///< of each load; empty: nothing is known of its oven
  Probability never;               ///< the first bulk does not end within the horizon
  Time horizon;
  std::vector<double> ready_hours, oven_hours;  ///< of each draw; infinite when never
  std::vector<double> past_hours;  ///< of each draw left in its last place: past its best; where
                                   ///< that was asked for
  std::vector<double> weight;      ///< of each draw; empty: alike
  std::optional<OutOfTheCold> out_of_the_cold;  ///< where the pieces proof in the cold
  int draws = 0;

  /// The first thing that is not done `now` after mixing (empty: it is not mixed yet). What can be
  /// missed, a fold, the cold or the cut, is let go half an hour after its time.
  [[nodiscard]] const ToDo* next(std::optional<Time> now) const;
};

/// The doughs that go the way.
struct Crowd {
  std::vector<Walking> doughs;
  std::vector<double> weight;                    ///< empty: alike
  std::function<heat::Track(std::size_t)> bulk;  ///< of each up to the end of the first bulk
};

/// Besides the timeline: what every dough did in the bulk, where it was left in it to the horizon.
struct LeftInTheBulk {
  std::size_t samples = 0;     ///< of each curve
  std::vector<float> rise;     ///< by the dough's own hours, as Many::rise
  std::vector<Passed> passed;  ///< in hours on the clock
};

struct CrowdOptions {
  Proving proving;   ///< of which accuracy, surface, horizon and the curve's steps count
  Time own_horizon;  ///< of the curves, where the doughs' hours are not those on the clock
  int threads = 0;
  std::function<bool()> cancelled = nullptr;
  bool until_past = false;   ///< whether past_hours are wanted
  bool hours_alone = false;  ///< no curves, no states of doughs left in the bulk, nothing of what
                             ///< comes out of the cold: for less work
  std::optional<Time> wait = std::nullopt;  ///< so long they are looked for from the last stage's
                                            ///< end on; empty: to the horizon
};

/// Errors: no_convergence, cancelled. `left` is asked for where not null. Checked against:
/// tests/forecast/timeline_test.cpp.
[[nodiscard]] Result<Timeline> timeline(const Plan& plan,
                                        const Crowd& crowd,
                                        const CrowdOptions& options,
                                        LeftInTheBulk* left = nullptr);

/// Only the end of the first bulk of each dough [h], infinite when never.
[[nodiscard]] Result<std::vector<double>> ready_hours(const Plan& plan,
                                                      const Crowd& crowd,
                                                      const CrowdOptions& options);

}  // namespace barm::forecast

#pragma once
#include <functional>
#include <optional>
#include <vector>

#include "kinetics/parameter.h"
#include "units/temperature.h"
#include "units/units.h"

namespace barm::forecast {

/// A stage that is done: a bulk, a proof or a cold ended then, a fold, a divide, a shape was made.
struct Done {
  std::size_t stage = 0;  ///< its place in the bake file, 0 the first
  Time at;                ///< after mixing
};

/// How a bake is to be foreseen.
struct Options {
  int draws = 400;
  unsigned long long seed = 1;
  Time horizon = 72.0 * hour;
  int threads = 0;                                           ///< 0: as many as the machine has
  double target = 0;                                         ///< volume ratio; 0: the bake's own
  std::optional<Temperature> temperature = std::nullopt;     ///< instead of the bake's own bulk
  const kinetics::JointPrior* prior = &kinetics::day_one();  ///< or kinetics::published()
  bool curves = true;
  std::function<bool()> cancelled = nullptr;       ///< asked now and then; true stops the work
  std::function<void(double)> progress = nullptr;  ///< told the share done, ascending
  std::vector<Done> done = {};                     ///< what has happened of the bake
  bool until_past = false;                         ///< Timeline::past_hours are wanted
};

}  // namespace barm::forecast

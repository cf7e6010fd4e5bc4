#pragma once
// The whole way of a dough through its stages, on one run: bulk, folds, divide, shape, proof, cold.
#include <vector>

#include "base/result.h"
#include "forecast/course.h"
#include "formula/bake.h"

namespace barm::forecast {

/// How the dough stands when a stage ends.
struct Stop {
  formula::Step step = formula::Step::bulk;
  Time begin, end;  ///< after mixing
  double rise = 1;  ///< volume over the volume at mixing
  double ph = 6;
  double room_left =
      0;  ///< how much further it could rise before it leaks: limit over volume, minus 1
  bool reached = true;  ///< false when the volume asked for was not reached before the horizon
};

/// Runs the stages of a bake one after the other. A stage lasts as long as the file says, or until
/// its volume ratio is reached; a bulk without either until the bake's target, a proof without
/// either two hours. The place is taken to be at its temperature at once: no conduction yet.
/// Dividing and shaping take gas out (data/dough.toml). `target` and `temperature` of `proving`
/// hold for the bulk; its horizon ends everything. Errors: no_convergence.
[[nodiscard]] Result<std::vector<Stop>> journey(const formula::Bake& bake,
                                                const kinetics::Dough& dough,
                                                const kinetics::Parameters<double>& parameters,
                                                const Proving& proving);

}  // namespace barm::forecast

#pragma once
// The whole way of a dough through its stages, on one run: bulk, folds, divide, shape, proof, cold.
#include <vector>

#include "base/result.h"
#include "forecast/course.h"
#include "forecast/draw.h"
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
  double least_room =
      0;  ///< of room_left during the stage: an overproofed dough has been at its limit
  Temperature dough = Temperature::from_celsius(24);  ///< of the dough, at which it ferments
};

/// Runs the stages of a bake one after the other. A stage lasts as long as the file says, or until
/// its volume ratio is reached; a bulk without either until the bake's target, a proof without
/// either two hours. A bulk that begins the way has the temperatures of `proving` (warmth.h); in
/// every later stage the dough warms and cools by conduction, as the bulk in a tub, as a piece in a
/// basket, or as the file says, warmed by its own fermentation at the pace at which it comes in.
/// Dividing and shaping even the warmth out and take gas out (data/dough.toml). `target` of
/// `proving` holds for the bulk; its horizon ends everything. Errors: no_convergence.
[[nodiscard]] Result<std::vector<Stop>> journey(const formula::Bake& bake,
                                                const Draw& draw,
                                                const Proving& proving);

}  // namespace barm::forecast

#pragma once
// Why a dough never gets there, and the smallest change that mends it.
#include <optional>
#include <string>

#include "base/result.h"
#include "forecast/ensemble.h"
#include "forecast/options.h"
#include "formula/bake.h"

namespace barm::forecast {

/// What ends it. Of the gas alone, as if the dough held all of it: the yeast stops before there is
/// enough; or there is enough and the dough cannot hold it; or its food is gone before; or nothing
/// does, and there would be enough in five times the horizon.
enum class Obstacle { yeast_stops, cannot_hold, food_gone, too_slow };

/// One thing about the bake that could be otherwise.
struct Change {
  enum class What { share_of_liquid, share_of_flour, temperature, fresh_levain, target };
  What what = What::target;
  std::string of;         ///< the ingredient, where it is one
  double at_most = 0;     ///< share; Celsius; volume ratio; as `what` says
  double instead_of = 0;  ///< what the bake has
};

struct WhyNever {
  Obstacle obstacle = Obstacle::yeast_stops;
  std::optional<Change> change;  ///< the smallest one with which 4 of 5 get there; empty: none does
};

/// Of a bake of which fewer than half of the draws get there. A change is looked for by halving the
/// way from the bake as it is to one that has none of an ingredient, stands at the usual
/// temperature or has a levain at its peak; only where none of them mends it is a smaller rise
/// proposed, the largest that 4 of 5 reach. `largest` are the largest rises of the draws. Errors:
/// as foresee().
[[nodiscard]] Result<WhyNever> why_never(const formula::Bake& bake,
                                         const Options& options,
                                         std::vector<double> largest);

/// What ends a dough of which fewer than half get there. Errors: as foresee().
[[nodiscard]] Result<Obstacle> what_ends_it(const formula::Bake& bake, const Options& options);

/// The largest rise that this share of the doughs reach, to the twentieth below, where these are
/// their largest rises; empty where that is no rise to speak of or the target itself.
[[nodiscard]] std::optional<double> rise_in_reach(std::vector<double> largest,
                                                  double share,
                                                  double target);

}  // namespace barm::forecast

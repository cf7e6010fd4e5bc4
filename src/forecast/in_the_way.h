#pragma once
// What holds a dough back, in hours.
#include <vector>

#include "forecast/ensemble.h"
#include "kinetics/dough.h"

namespace barm::forecast {

/// One thing in the way and the hours it costs (negative when it helps, as sugar may).
struct Hindrance {
  kinetics::Factor factor = kinetics::Factor::alcohol;
  Time costs;
};

struct InTheWay {
  std::vector<Hindrance> hindrances;  ///< only what the bowl holds; dearest first
  std::optional<Time> as_it_is;       ///< time to the target; empty when beyond the horizon
  std::optional<Time> plain;          ///< with nothing but salt in the way: as with plain water
  bool at_least = false;              ///< the costs are lower bounds: the dough never gets there
  Time horizon;
};

/// Runs the book dough again with every combination of factors taken out of the bowl and shares the
/// time between them by Shapley values, so that the costs add up to what all of them cost together.
/// A dough that never gets there counts as the horizon. Errors: as foresee().
[[nodiscard]] Result<InTheWay> in_the_way(const formula::Bake& bake, const Options& options = {});

/// "alcohol", "salt", …
[[nodiscard]] std::string_view name(kinetics::Factor factor);

}  // namespace barm::forecast

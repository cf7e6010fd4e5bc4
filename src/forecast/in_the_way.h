#pragma once
// What holds a dough back, in hours.
#include <functional>
#include <optional>
#include <vector>

#include "forecast/ensemble.h"
#include "kinetics/dough.h"

namespace barm::forecast {

/// One thing in the way and the hours it costs (negative when it helps, as sugar may).
struct Hindrance {
  kinetics::Factor factor = kinetics::Factor::alcohol;
  Time costs;
  Time said;  ///< to the quarter of an hour, so that what is said adds up as well
};

struct InTheWay {
  std::vector<Hindrance> hindrances;  ///< only what there is; dearest first
  std::optional<Time> as_it_is;       ///< half of the doughs have reached the target; empty: later
  std::optional<Time> bare;           ///< the same with nothing in the way
  std::optional<Time> plain;          ///< with plain water instead of the drinks
  bool at_least = false;  ///< the costs are lower bounds: half of the doughs never get there
  Time horizon;
};

/// When half of the doughs have reached the target without these factors, also where the bake gives
/// its bulk a time; empty: later than the horizon.
using HalfReady =
    std::function<Result<std::optional<Time>>(const std::vector<kinetics::Factor>& without)>;

/// What each costs the middle one of the doughs that a head is told of, so that
///
///     bare + the sum of all costs = as it is.
///
/// How the difference is shared is taken from some of the draws, each run with every combination of
/// factors taken away (Shapley values of the mean ln of their hours). What is said is rounded by
/// the largest remainder: bare as a clock shows it and the costs as said make the hour as a clock
/// shows it. A dough that never gets there counts as the horizon. `ready`: of the head, where that
/// is known; `made`: of the same bowl. Errors: as foresee(), those of `half_ready`.
[[nodiscard]] Result<InTheWay> in_the_way(const formula::Bake& bake,
                                          const Options& options,
                                          const std::optional<Spread>& ready,
                                          const HalfReady& half_ready,
                                          Made& made);

/// Of the draws of a forecast, `made` of the same bowl. Errors: as foresee().
[[nodiscard]] Result<InTheWay> in_the_way(const formula::Bake& bake,
                                          const Options& options,
                                          const std::optional<Spread>& ready,
                                          Made& made);

/// Whether it is of the place the dough stands in, and not of its bowl.
[[nodiscard]] bool of_the_place(kinetics::Factor factor);

/// What cold and warmth are told against: the nearest warmth of which neither is said, so that they
/// begin at nothing.
[[nodiscard]] Temperature neither_cold_nor_warm(Temperature place);

/// "alcohol", "salt", …
[[nodiscard]] std::string_view name(kinetics::Factor factor);

}  // namespace barm::forecast

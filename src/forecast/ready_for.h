#pragma once
// Ready for what: how far the bulk may go, from what comes after it.
#include <optional>
#include <vector>

#include "base/result.h"
#include "forecast/ensemble.h"

namespace barm::forecast {

/// What bakers let a bulk do: common practice, no source.
struct TradeFigure {
  bool stiff = true;  ///< a stiff mild starter, else a liquid sour one
  double least = 1.75, most = 2.25;
};

struct ReadyFor {
  std::vector<formula::Step> after;  ///< what comes after the bulk
  Time cold, proof;                  ///< of it
  double room = 0;  ///< how much further a loaf is to be able to rise when it goes in, 0.3
  double p10 = 1, p50 = 1, p90 = 1;  ///< volume ratio at which the bulk is to end, among draws
  Probability too_long;      ///< share of draws where even the shortest bulk leaves less room
  double asked = 2;          ///< what the bake asks of the bulk
  Probability asked_leaves;  ///< share of draws where that leaves the room
  std::optional<Stop> oven;  ///< the middle of the draws as they go in, each with its own bulk
  TradeFigure stiff_mild, liquid_sour;
  bool starter_is_stiff = true;
  int draws = 0;
};

/// The largest bulk at which a dough keeps the room from the bulk's end to the oven,
///
///     room <= min over the way of  L/R - 1
///
/// between 1.1 and 5, found from ways that part where the bulk ends (journey.h): room + 1 goes
/// about as a power of the ratio, halving where it does not. None when nothing comes after the
/// bulk. `made`: of the same bowl. Errors: bad_input, no_convergence, cancelled.
[[nodiscard]] Result<std::optional<ReadyFor>> ready_for(const formula::Bake& bake,
                                                        const Options& options,
                                                        Made& made);

}  // namespace barm::forecast

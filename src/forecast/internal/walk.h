#pragma once
// Many doughs on their way, stage by stage: what takes time is fermented in lanes.
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "base/result.h"
#include "forecast/internal/dough_on_its_way.h"

namespace barm::forecast::internal {

/// A dough and the ends of the stages it has gone through; fewer than the stages where one of them
/// was not reached.
struct Walker {
  DoughOnItsWay way;
  std::vector<Stop> stops = {};
  bool on = true;  ///< every stage so far ended as it should, before the horizon
};

/// The curve and the events of each dough over several legs, in the dough's own hours.
struct Seen {
  std::size_t samples = 0;  ///< of each curve, one each `every` from mixing
  std::vector<float> rise;
  std::vector<Passed> passed;  ///< the first of each event; of the peak the last
};

struct WalkOptions {
  numerics::Accuracy accuracy = ManyOptions().proving.accuracy;
  int threads = 0;
  std::function<bool()> cancelled = nullptr;
  Time sample_every;  ///< of the curves; zero for none
  Time horizon;       ///< of the curves, in the doughs' own hours
  double surface = 1;
  bool stop_collapsed = false;  ///< of a dough that is left where it is
};

/// Goes on through stages that stand in this order; `first_bulk` is the one up to whose end the
/// doughs have the temperatures they brought (none: that is behind them), `target` what a bulk
/// without a ratio or time goes until. Folds among the stages belong to the bulk before them.
/// Errors: no_convergence, cancelled.
std::optional<Error> walk(std::span<Walker> walkers,
                          std::span<const formula::Stage> stages,
                          const formula::Stage* first_bulk,
                          double target,
                          const WalkOptions& options,
                          Seen* seen = nullptr);

/// One leg of each walker that is `on`, entered already, to its own volume ratio; returns by walker
/// whether it ended as it should.
Result<std::vector<char>> ferment(std::span<Walker> walkers,
                                  const std::function<std::optional<double>(std::size_t)>& ratio,
                                  std::span<const formula::Stage> folds,
                                  const WalkOptions& options,
                                  Seen* seen = nullptr);

/// The volume ratio at which a stage ends, where it ends at one.
[[nodiscard]] std::optional<double> ratio_of(const formula::Stage& stage, double target);

}  // namespace barm::forecast::internal

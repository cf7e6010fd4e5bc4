#pragma once
// What comes of the dough now that it has been read: when it is ready, how long it stays good, when
// to look again.
#include <optional>
#include <vector>

#include "base/result.h"
#include "estimation/learn.h"
#include "forecast/ensemble.h"
#include "forecast/timeline.h"

namespace barm::estimation {

/// The next look that pays.
struct NextLook {
  Time at;
  double width_now = 1;    ///< [h] of the range that holds 4 of 5 doughs
  double width_after = 1;  ///< [h] expected once it has been read
};

/// Times are hours on the clock since mixing, of the bulk.
struct Outlook {
  forecast::Timeline timeline;  ///< of the draws that agree with the readings
  forecast::Spread ready;       ///< its own
  forecast::Spread past;        ///< past its best: the largest volume is behind
  Time now;                     ///< of the last reading
  Probability already;          ///< that the target was reached before now
  Probability never;            ///< not within the horizon
  Time horizon;
  double target = 2;
  std::optional<Time> good_from, good_until;  ///< good with a chance of at least one in two
  std::optional<Time> best_at;                ///< most surely good
  Probability best_chance;
  std::optional<NextLook> next;      ///< empty when no look would tell much
  std::vector<forecast::Band> band;  ///< of the bulk
  double rise_now = 1;               ///< middle of the bulk's volume ratio at `now`
  std::vector<double> ready_hours;   ///< of each draw, in their order; infinite when never
  std::vector<double> past_hours;    ///< likewise past its best
  std::vector<double> weight;        ///< of each draw
};

/// Sends every draw its whole way, and its bulk to the horizon where it is left in it. The pace
/// goes on wandering after the last reading. Errors: no_convergence, cancelled.
[[nodiscard]] Result<Outlook> outlook(const DoughToRead& batch,
                                      const Readings& readings,
                                      const Learned& learned,
                                      const LearnOptions& options = {});

}  // namespace barm::estimation

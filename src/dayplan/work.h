#pragma once
// A plan worked through with many simulated doughs: how often all bread is there in time.
//
// In each draw the house works the plan: it turns to a step at its planned time, later when the
// dough is not ready or hands and places are taken, earlier when the dough will not wait so long
// (due.h). Of two steps that could begin the one that was planned earlier goes first, but nobody
// takes up what would keep the hands from a step that is known to come and cannot wait, such as
// bread out of the oven. Nobody knows beforehand how long a dough will take. What has begun is
// finished. A dough that is past its window counts as failed and is worked on all the same.
#include <functional>
#include <vector>

#include "dayplan/day.h"

namespace barm::dayplan {

/// A share counted on draws, with the error of counting so many: where the true share is 19 times
/// in 20 (Wilson 1927, "Probable inference", J. Am. Stat. Assoc. 22, 209).
struct Chance {
  std::size_t through = 0, draws = 0;

  [[nodiscard]] double value() const;
  [[nodiscard]] double low() const;
  [[nodiscard]] double high() const;
};

/// In how many draws a bake failed first at this leg.
struct Missed {
  std::size_t bake = 0, leg = 0;
  std::size_t draws = 0;
};

struct Worked {
  Chance all;           ///< every bread in time, no dough past its window
  Chance by_the_clock;  ///< the same where every step is done at its planned minute, looked at or
                        ///< not
  std::vector<Chance> each;    ///< of each bake
  std::vector<Missed> missed;  ///< most first
};

/// Counted on the draws of the day, which should not be those that the plan was made with. Errors:
/// none; a plan with faults (check.h) fails more often.
[[nodiscard]] Worked work(const Day& day, const Plan& plan);

/// Only in how many of the draws everything goes well, of one plan after the other. A draw that
/// failed is looked at first in the next plan, for it mostly fails there too: that a plan is no
/// better is told by few.
class Counting {
 public:
  explicit Counting(const Day& day);

  /// Less where it is told early that these are not more than `at_least`.
  [[nodiscard]] std::size_t through(const Plan& plan, std::size_t at_least = 0);

 private:
  const Day& day_;
  std::vector<std::size_t> order_;  ///< of the draws
};

}  // namespace barm::dayplan

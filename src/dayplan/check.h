#pragma once
// Whether a plan can be carried out, found minute by minute. Shares nothing with what made the
// plan, so that no plan is shown on its maker's word alone.
#include <vector>

#include "dayplan/day.h"

namespace barm::dayplan {

struct Fault {
  enum class Kind {
    no_course,     ///< a course with a way or a number of steps that the bake has not
    before_begin,  ///< a step before the plan begins
    off_grid,      ///< a step that is not at a multiple of the grid
    out_of_order,  ///< a step before the one in front of it is done
    too_early,     ///< no dough is ready so early
    too_late,      ///< no dough lasts so long
    closed,        ///< in the night or on a day of rest
    too_many,      ///< more of a resource than there is
    moved          ///< a step that has begun, at another time
  };

  Kind kind = Kind::no_course;
  At at;                     ///< the step; of too_many the one that comes last
  std::size_t leg = 0;       ///< of too_early and too_late
  std::size_t resource = 0;  ///< of closed and too_many
  Span when;                 ///< of too_many
  std::vector<At> takers;    ///< of too_many: all who hold it in its first minute
};

/// Nothing where the plan holds. Steps that have begun are taken as they are, but for what they
/// hold.
[[nodiscard]] std::vector<Fault> check(const Day& day, const Plan& plan);

}  // namespace barm::dayplan

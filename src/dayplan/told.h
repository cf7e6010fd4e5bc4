#pragma once
// A day in words: what collides, what would free it, why there is no plan, where it may fail.
#include <functional>
#include <string>
#include <vector>

#include "dayplan/check.h"
#include "dayplan/plan.h"
#include "dayplan/remedy.h"
#include "dayplan/work.h"

namespace barm::dayplan {

/// A minute of the plan as the clock on the wall has it: "Sat 05:10".
using Clock = std::function<std::string(Minutes)>;

/// "divide of the mead loaf at Fri 21:50: nobody works then".
[[nodiscard]] std::string say(const Day& day,
                              const Plan& plan,
                              const Fault& fault,
                              const Clock& clock);

/// Why no plan was found: which bakes and which of the house, and what would free it.
[[nodiscard]] std::vector<std::string> why_not(const Day& day,
                                               const Planned& planned,
                                               const Clock& clock,
                                               const Offers& offers = nullptr);

/// Where bakes would meet if each had the house to itself, and what of the house or which offer for
/// them would let more doughs through; empty where none meet.
[[nodiscard]] std::vector<std::string> collisions(const Day& day,
                                                  const Planned& planned,
                                                  const Clock& clock,
                                                  const Offers& offers = nullptr);

/// Where the plan fails most, by so many of its draws.
[[nodiscard]] std::vector<std::string> doubts(const Day& day,
                                              const Plan& plan,
                                              const Worked& worked);

}  // namespace barm::dayplan

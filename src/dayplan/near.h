#pragma once
// A plan laid anew as near to the one there was as may be.
#include <optional>
#include <vector>

#include "dayplan/timetable.h"

namespace barm::dayplan {

/// The plan with these bakes laid as near to it as may be, the others where they lie; their ways
/// stay. Nothing where none was found.
[[nodiscard]] std::optional<Plan> laid_near(const Day& day,
                                            const Plan& plan,
                                            const std::vector<Pin>& pins,
                                            const std::vector<std::size_t>& bakes);

/// The plan after something has happened: what has begun lies where it began, what cannot lie any
/// more where it did is laid near to it, first the bakes that it is of, then those they meet, then
/// all; and then slack moves to where the doubt is now (shift.h). Nothing where no plan by these
/// ways was found.
[[nodiscard]] std::optional<Plan> laid_again(const Day& day, Plan plan);

}  // namespace barm::dayplan

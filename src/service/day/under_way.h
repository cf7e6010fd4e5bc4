#pragma once
// A bake of the daybook as the day's planner takes it.
#include <string>

#include "service/day/file.h"
#include "service/now.h"
#include "storage/daybook.h"

namespace barm::service {

/// A bake by its id or words of its title: what its culture has taught, and of a live one its
/// readings and what was ticked off. Errors: as find_bake(), stored_bake(), begun_for(); not_found
/// for one in the trash.
[[nodiscard]] Result<KnownBake> known_bake(storage::Daybook& daybook,
                                           const std::string& words,
                                           const Now& now);

}  // namespace barm::service

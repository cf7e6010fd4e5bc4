#pragma once
// The numbers of a daybook: of changes, and of revisions. A copy that is put back knows nothing of
// the numbers given since it was made; so they go on from a place that none of those can have
// reached, and whoever comes with one of them is found out.
#include <cstdint>

#include "storage/internal/connection.h"

namespace barm::storage::internal {

/// The least number given out since the daybook was made, or put back to a copy.
[[nodiscard]] std::int64_t first_of_epoch(Daybook::Connection& connection);

/// Of the newest change.
[[nodiscard]] std::int64_t newest_change(Daybook::Connection& connection);

/// The revision after this one; 0: of a new record.
[[nodiscard]] std::int64_t next_revision(Daybook::Connection& connection, std::int64_t revision);

/// Whether a number of a change was given out before a copy was put back and after that was made.
[[nodiscard]] bool is_lost(Daybook::Connection& connection, std::int64_t number);

/// Begins an epoch: above all numbers in the daybook, above `others`, and above the milliseconds
/// since 1970, which no daybook reaches by counting.
void begin_epoch(Daybook::Connection& connection, std::int64_t others);

}  // namespace barm::storage::internal

#pragma once
#include "service/now.h"
#include "storage/daybook.h"

namespace barm::service {

/// Fills a new daybook with the invented bakery of examples/daybook/, its moments counted from now:
/// two doughs live, one of them late, three to come, some finished, with readings, cultures,
/// bottles, loaves, a drawing in place of a photo, and a test bake. Number of records. Errors:
/// bad_input when the daybook is not empty.
[[nodiscard]] Result<int> fill_with_demo(storage::Daybook& daybook, const Now& now);

/// The same in a daybook in use, to be thrown away again. Errors: bad_input where there is any
/// bake.
[[nodiscard]] Result<int> look_round(storage::Daybook& daybook, const Now& now);

/// Throws the invented bakery away: its records into the trash, the baker's own stay. Number of
/// records.
[[nodiscard]] Result<int> end_look_round(storage::Daybook& daybook, const Now& now);

}  // namespace barm::service

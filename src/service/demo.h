#pragma once
#include "service/now.h"
#include "storage/daybook.h"

namespace barm::service {

/// Fills a new daybook with the invented bakery of examples/daybook/, its moments counted from now:
/// two doughs live, one of them late, three to come, some finished, with readings, cultures,
/// bottles, loaves, a drawing in place of a photo, and a test bake. Number of records. Errors:
/// bad_input when the daybook is not empty.
[[nodiscard]] Result<int> fill_with_demo(storage::Daybook& daybook, const Now& now);

}  // namespace barm::service

#pragma once
#include "service/now.h"

namespace barm::test {

/// Saturday 2026-11-28, 12:00 on a wall one hour east of UTC.
inline service::Now saturday_noon() { return {{1795863600}, time::Zone::fixed(3600)}; }

}  // namespace barm::test

#pragma once
// What is odd about the machine's clock, in words for the baker. Copies and the trash do not go by
// the clock alone (storage/copies.h, storage/trash.cpp), but hours of readiness do.
#include <cstdint>
#include <optional>
#include <string>

#include "service/now.h"
#include "storage/daybook.h"

namespace barm::service {

/// When the daybook was last written later than now, or over two weeks before; nothing otherwise.
[[nodiscard]] Result<std::optional<std::string>> clock_doubt(storage::Daybook& daybook,
                                                             const Now& now);

/// "40 days", "3 hours", "5 minutes": a length of time roughly.
[[nodiscard]] std::string rough_length(std::int64_t seconds);

}  // namespace barm::service

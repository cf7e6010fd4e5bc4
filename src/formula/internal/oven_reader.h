#pragma once
#include "formula/document.h"
#include "formula/oven_table.h"

namespace barm::formula::internal {

/// The [oven] table. Stops at what no oven does.
[[nodiscard]] OvenTable read_oven(const Entry& entry);

}  // namespace barm::formula::internal

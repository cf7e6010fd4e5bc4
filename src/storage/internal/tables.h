#pragma once
// Records as CSV tables and back: a head of field names, one record a row.
#include <string>
#include <vector>

#include "base/result.h"
#include "storage/records.h"

namespace barm::storage::internal {

/// Any struct of records.h.
template <class T>
[[nodiscard]] std::string to_csv(const std::vector<T>& records);

/// Columns in any order; a column that no field has is refused, one that is missing keeps the
/// field's start value. Errors: bad_input with file:line and the column.
template <class T>
[[nodiscard]] Result<std::vector<T>> from_csv(std::string_view text, const std::string& file);

}  // namespace barm::storage::internal

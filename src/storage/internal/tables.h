#pragma once
// Records as CSV tables and back: a head of field names, one record a row.
#include <functional>
#include <string>
#include <vector>

#include "base/result.h"
#include "storage/records.h"

namespace barm::storage::internal {

/// Any struct of records.h.
template <class T>
[[nodiscard]] std::string to_csv(const std::vector<T>& records);

/// Gives each record in turn and says how many there were. Columns in any order; a column that no
/// field has is refused, one that is missing keeps the field's start value. Errors: bad_input with
/// file:line and the column; as read_csv.
template <class T>
[[nodiscard]] Result<std::size_t> from_csv(std::string_view text,
                                           const std::string& file,
                                           const std::function<void(const T&)>& take);

}  // namespace barm::storage::internal

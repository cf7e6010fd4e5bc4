#pragma once
#include "storage/daybook.h"
#include "storage/internal/zip.h"

namespace barm::storage::internal {

/// Fills an empty daybook from an export, all or nothing. Throws LeaveTransaction with the place in
/// the zip.
void put_all_back(Daybook& daybook, const ZipReader& zip);

}  // namespace barm::storage::internal

#pragma once
// A daybook as a zip that a person can read: bake files as TOML, tables as CSV, documents as JSON,
// pictures as JPEG. What goes in comes out equal. docs/daybook.md.
#include <string>

#include "storage/daybook.h"

namespace barm::storage {

/// Writes everything, the trash included, into a new file. Errors: bad_input when there is such a
/// file already, unavailable.
[[nodiscard]] Result<std::string> export_to(Daybook& daybook,
                                            const std::string& zip,
                                            time::Instant now);

/// Makes a new daybook at `path` from a zip of export_to(). Errors: bad_input with the place in the
/// zip (not a zip, a name that leaves it, more than 4 GB or 200 000 files unpacked, a field that
/// cannot be), and when there is such a daybook already; then nothing is left behind.
[[nodiscard]] Result<std::string> import_from(const std::string& zip, const std::string& path);

/// What differs between two daybooks, in words, at most ten; empty when they are equal in every
/// record, version and picture.
[[nodiscard]] Result<std::vector<std::string>> differences(Daybook& one, Daybook& other);

}  // namespace barm::storage

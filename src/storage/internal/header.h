#pragma once
#include <sqlite3.h>

#include "storage/internal/connection.h"

namespace barm::storage::internal {

/// Looks at the first bytes of the file before SQLite does and refuses what is no daybook, is cut
/// short or is of a newer program. Reads through the connection's own handle, never by opening the
/// file again: by POSIX, whoever closes any descriptor of a file drops all locks that his process
/// has on it, those of every other connection too.
void look_at_header(Daybook::Connection& connection);

/// The connection's own handle of the file.
[[nodiscard]] sqlite3_file& file_of(Daybook::Connection& connection);

/// Whether the file has another name by now, or none: it was put aside since it was opened.
[[nodiscard]] bool was_moved(Daybook::Connection& connection);

}  // namespace barm::storage::internal

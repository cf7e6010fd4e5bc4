#pragma once
// Connections of whatever version up to ours, for opening and for putting a copy back.
#include <memory>
#include <string>

#include "storage/internal/connection.h"

namespace barm::storage::internal {

/// The file that stands under that name now, of whatever version. Throws LeaveTransaction and
/// SQLite::Exception.
[[nodiscard]] std::unique_ptr<Daybook::Connection> connect(const std::string& path,
                                                           const Opening& opening);

[[nodiscard]] int version_of(Daybook::Connection& connection);

/// Takes the steps that are missing, all or none. Whoever calls has the file to himself.
void take_missing_steps(Daybook::Connection& connection);

/// Brings an older daybook up to date, with a copy in FILE.backups/ taken first. Refuses while any
/// other program has it open: that one would go on writing by the older rules.
void upgrade(const std::string& path, int busy_ms);

/// A connection that has the file to itself from its first look until it is closed. In this mode
/// SQLite locks the whole of a file with a log when it first looks into it, and every program that
/// has it open, however idle, holds a lock of its own (https://www.sqlite.org/wal.html#noshm).
/// Nothing when the file was put aside meanwhile. Throws when somebody has it open (SQLITE_BUSY).
[[nodiscard]] std::unique_ptr<Daybook::Connection> connect_alone(const std::string& path,
                                                                 int busy_ms);

}  // namespace barm::storage::internal

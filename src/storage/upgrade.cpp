// From an older daybook to one of today.
#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include "storage/internal/files.h"
#include "storage/internal/open.h"
#include "storage/internal/schema.h"

namespace barm::storage::internal {

int version_of(Daybook::Connection& connection) {
  return connection.database.execAndGet("PRAGMA user_version").getInt();
}

void take_missing_steps(Daybook::Connection& connection) {
  SQLite::Transaction transaction(connection.database, SQLite::TransactionBehavior::EXCLUSIVE);
  const auto& steps = schema_steps();
  for (auto step = static_cast<std::size_t>(version_of(connection)); step < steps.size(); ++step)
    connection.database.exec(std::string(steps[step]));
  connection.database.exec(fmt::format("PRAGMA user_version = {}", steps.size()));
  transaction.commit();
}

void upgrade(const std::string& path, int busy_ms) {
  try {
    const auto alone = connect_alone(path, busy_ms);
    if (!alone || version_of(*alone) >= newest_version()) return;
    keep_copy(*alone,
              free_name(backup_folder(path) + fmt::format("/before-version-{}", newest_version()),
                        ".barm"));
    take_missing_steps(*alone);
  } catch (const SQLite::Exception& exception) {
    if ((exception.getErrorCode() & 0xFF) != SQLITE_BUSY) throw;
    refuse(ErrorCode::unavailable,
           path,
           "is of an older barm, and another program has it open. End that (a server, or a command "
           "in another terminal); the next start brings the daybook up to date");
  }
}

}  // namespace barm::storage::internal

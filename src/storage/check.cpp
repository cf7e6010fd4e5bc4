// Whether a daybook is whole: its pages, its tables, what belongs to what; and each record.
#include <fmt/format.h>

#include <set>

#include "storage/internal/checks.h"
#include "storage/internal/columns.h"
#include "storage/internal/connection.h"
#include "storage/internal/schema.h"

namespace barm::storage {

namespace {

constexpr std::size_t most_faults = 20;

using Faults = std::vector<std::string>;

void look_at_pages(SQLite::Database& database, Faults& faults) {
  SQLite::Statement pages(database, fmt::format("PRAGMA integrity_check({})", most_faults));
  while (pages.executeStep()) {
    std::string words = pages.getColumn(0).getString();
    if (words != "ok") faults.push_back(std::move(words));
  }
}

// "the table reading", "the column ph of reading", "the index reading_of_bake".
std::set<std::string> parts_of(SQLite::Database& database) {
  std::set<std::string> parts;
  SQLite::Statement statement(
      database,
      "SELECT 'the ' || type || ' ' || name FROM sqlite_schema WHERE type IN ('table', 'index') "
      "AND "
      "name NOT LIKE 'sqlite_%' UNION ALL SELECT 'the column ' || p.name || ' of ' || m.name FROM "
      "sqlite_schema m JOIN pragma_table_info(m.name) p WHERE m.type = 'table' AND m.name NOT LIKE "
      "'sqlite_%'");
  while (statement.executeStep()) parts.insert(statement.getColumn(0).getString());
  return parts;
}

// Against a new daybook of the same version. What somebody added is no fault.
void look_at_tables(SQLite::Database& database, Faults& faults) {
  const auto version =
      static_cast<std::size_t>(database.execAndGet("PRAGMA user_version").getInt());
  SQLite::Database wanted(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  for (std::size_t i = 0; i < version && i < internal::schema_steps().size(); ++i)
    wanted.exec(std::string(internal::schema_steps()[i]));
  const auto there = parts_of(database);
  for (const std::string& part : parts_of(wanted)) {
    if (!there.contains(part) && faults.size() < most_faults)
      faults.push_back(part + " is missing");
  }
}

void look_at_references(SQLite::Database& database, Faults& faults) {
  SQLite::Statement references(database, "PRAGMA foreign_key_check");
  while (references.executeStep() && faults.size() < most_faults) {
    faults.push_back(fmt::format("a {} belongs to a {} that is not there",
                                 references.getColumn(0).getString(),
                                 references.getColumn(2).getString()));
  }
}

// Why a row is no record that may be kept; nothing when it is one.
template <class T>
std::optional<Error> wrong_row(SQLite::Statement& statement) {
  try {
    return internal::wrong_with(internal::row<T>(statement));
  } catch (const internal::LeaveTransaction& refused) {
    return refused.error;
  }
}

template <class T>
void look_at_records(SQLite::Database& database, Faults& faults) {
  SQLite::Statement statement(database,
                              "SELECT " + internal::columns<T>() + " FROM " + internal::table<T>());
  while (faults.size() < most_faults && statement.executeStep()) {
    const auto wrong = wrong_row<T>(statement);
    if (wrong)
      faults.push_back(fmt::format(
          "{} {}: {}", internal::table<T>(), statement.getColumn(0).getString(), wrong->text()));
  }
}

}  // namespace

Result<std::vector<std::string>> Daybook::check() {
  return internal::guarded(*connection_, [&] {
    Faults faults;
    look_at_pages(connection_->database, faults);
    look_at_tables(connection_->database, faults);
    if (!faults.empty()) return faults;  // the rest would trip over them
    look_at_references(connection_->database, faults);
    return faults;
  });
}

Result<std::vector<std::string>> Daybook::odd_records() {
  return internal::guarded(*connection_, [&] {
    Faults faults;
    internal::each_kind([&](const auto& empty) {
      look_at_records<std::decay_t<decltype(empty)>>(connection_->database, faults);
    });
    return faults;
  });
}

}  // namespace barm::storage

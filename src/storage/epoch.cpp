#include "storage/internal/epoch.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <initializer_list>

namespace barm::storage {

namespace internal {

namespace {

std::int64_t one_number(Daybook::Connection& connection, const char* sql) {
  SQLite::Statement& statement = connection.statement(sql);
  statement.executeStep();
  const std::int64_t number = statement.getColumn(0).getInt64();
  statement.reset();
  return number;
}

std::int64_t milliseconds_since_1970() {
  using namespace std::chrono;
  return duration_cast<milliseconds>(system_clock::now().time_since_epoch()).count();
}

// 0 when there is no such record.
std::int64_t revision_of(Daybook::Connection& connection, Kind kind, const std::string& id) {
  SQLite::Statement& statement =
      connection.statement(fmt::format("SELECT revision FROM {} WHERE id = ?", name(kind)));
  statement.bind(1, id);
  const std::int64_t revision = statement.executeStep() ? statement.getColumn(0).getInt64() : 0;
  statement.reset();
  return revision;
}

void write_numbers(Daybook::Connection& connection,
                   const char* sql,
                   std::initializer_list<std::int64_t> numbers) {
  SQLite::Statement& statement = connection.statement(sql);
  int at = 1;
  for (const std::int64_t number : numbers) statement.bind(at++, number);
  statement.exec();
}

}  // namespace

std::int64_t first_of_epoch(Daybook::Connection& connection) {
  return one_number(connection, "SELECT max(first) FROM epoch");
}

std::int64_t newest_change(Daybook::Connection& connection) {
  return one_number(connection,
                    "SELECT coalesce((SELECT seq FROM sqlite_sequence WHERE name = 'change'), 0)");
}

std::int64_t next_revision(Daybook::Connection& connection, std::int64_t revision) {
  return std::max(revision + 1, first_of_epoch(connection));
}

bool is_lost(Daybook::Connection& connection, std::int64_t number) {
  SQLite::Statement& statement = connection.statement(
      "SELECT EXISTS (SELECT 1 FROM epoch WHERE after < ?1 AND ?1 < first - 1)");
  statement.bind(1, number);
  statement.executeStep();
  const bool lost = statement.getColumn(0).getInt() != 0;
  statement.reset();
  return lost;
}

void begin_epoch(Daybook::Connection& connection, std::int64_t others) {
  SQLite::Transaction transaction(connection.database, SQLite::TransactionBehavior::IMMEDIATE);
  const std::int64_t after = newest_change(connection);
  const std::int64_t first =
      std::max({after, first_of_epoch(connection), others, milliseconds_since_1970()}) + 1;
  write_numbers(connection, "INSERT INTO epoch (first, after) VALUES (?, ?)", {first, after});
  connection.database.exec("DELETE FROM sqlite_sequence WHERE name = 'change'");
  write_numbers(
      connection, "INSERT INTO sqlite_sequence (name, seq) VALUES ('change', ?)", {first - 1});
  transaction.commit();
}

}  // namespace internal

Result<std::int64_t> Daybook::epoch() {
  return internal::guarded(*connection_, [&] { return internal::first_of_epoch(*connection_); });
}

Result<bool> Daybook::is_of_before(Kind kind, const std::string& id, std::int64_t revision) {
  return internal::guarded(*connection_, [&] {
    const std::int64_t first = internal::first_of_epoch(*connection_);
    if (revision <= 0 || revision >= first) return false;
    const std::int64_t stored = internal::revision_of(*connection_, kind, id);
    return stored == 0 || revision > stored || stored >= first;
  });
}

}  // namespace barm::storage

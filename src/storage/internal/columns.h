#pragma once
// Records in and out of SQLite: values bound and read by their C++ type, statements written from
// the fields of fields.h.
#include <SQLiteCpp/SQLiteCpp.h>

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "storage/internal/connection.h"
#include "storage/internal/fields.h"

namespace barm::storage::internal {

/// A list of texts and a table of numbers as JSON text, and back.
[[nodiscard]] std::string written_out(const std::vector<std::string>& list);
[[nodiscard]] std::string written_out(const std::map<std::string, double>& table);
void read_back(const std::string& text, std::vector<std::string>& list);
void read_back(const std::string& text, std::map<std::string, double>& table);

inline void bind(SQLite::Statement& to, int at, const std::string& value) { to.bind(at, value); }

inline void bind(SQLite::Statement& to, int at, double value) { to.bind(at, value); }

inline void bind(SQLite::Statement& to, int at, std::int64_t value) { to.bind(at, value); }

inline void bind(SQLite::Statement& to, int at, time::Instant value) { to.bind(at, value.seconds); }

inline void bind(SQLite::Statement& to, int at, const std::vector<std::string>& value) {
  to.bind(at, written_out(value));
}

inline void bind(SQLite::Statement& to, int at, const std::map<std::string, double>& value) {
  to.bind(at, written_out(value));
}

template <class T>
void bind(SQLite::Statement& to, int at, const std::optional<T>& value) {
  if (value) {
    bind(to, at, *value);
  } else {
    to.bind(at);
  }
}

inline void read(const SQLite::Column& from, std::string& value) { value = from.getString(); }

inline void read(const SQLite::Column& from, double& value) { value = from.getDouble(); }

inline void read(const SQLite::Column& from, std::int64_t& value) { value = from.getInt64(); }

inline void read(const SQLite::Column& from, time::Instant& value) {
  value.seconds = from.getInt64();
}

inline void read(const SQLite::Column& from, std::vector<std::string>& value) {
  read_back(from.getString(), value);
}

inline void read(const SQLite::Column& from, std::map<std::string, double>& value) {
  read_back(from.getString(), value);
}

template <class T>
void read(const SQLite::Column& from, std::optional<T>& value) {
  if (from.isNull()) {
    value.reset();
  } else {
    T inside{};
    read(from, inside);
    value = std::move(inside);
  }
}

/// "id, revision, saved_at, deleted_at, title, …".
template <class T>
const std::string& columns() {
  static const std::string text = [] {
    std::string all = "id, revision, saved_at, deleted_at";
    T empty;
    each_field(empty, [&](const char* name, const auto&) { all += std::string(", ") + name; });
    return all;
  }();
  return text;
}

template <class T>
std::string table() {
  return std::string(name(Shape<T>::kind));
}

/// The row a statement over columns<T>() stands on.
template <class T>
T row(SQLite::Statement& from) {
  T record;
  record.id = from.getColumn(0).getString();
  record.revision = from.getColumn(1).getInt64();
  record.saved_at.seconds = from.getColumn(2).getInt64();
  read(from.getColumn(3), record.deleted_at);
  int at = 4;
  each_field(record, [&](const char*, auto& value) { read(from.getColumn(at++), value); });
  return record;
}

/// Writes the row as it is, new or over the one of the same id.
template <class T>
void write_row(Daybook::Connection& connection, const T& record) {
  static const std::string sql = [] {
    std::string marks = "?, ?, ?, ?";
    std::string set =
        "revision = excluded.revision, saved_at = excluded.saved_at, deleted_at = "
        "excluded.deleted_at";
    T empty;
    each_field(empty, [&](const char* name, const auto&) {
      marks += ", ?";
      set += std::string(", ") + name + " = excluded." + name;
    });
    return "INSERT INTO " + table<T>() + " (" + columns<T>() + ") VALUES (" + marks +
           ") ON CONFLICT (id) DO UPDATE SET " + set;
  }();
  SQLite::Statement& statement = connection.statement(sql);
  bind(statement, 1, record.id);
  bind(statement, 2, record.revision);
  bind(statement, 3, record.saved_at);
  bind(statement, 4, record.deleted_at);
  int at = 5;
  each_field(record, [&](const char*, const auto& value) { bind(statement, at++, value); });
  statement.exec();
}

template <class T>
std::optional<T> find(Daybook::Connection& connection, const std::string& id) {
  SQLite::Statement& statement =
      connection.statement("SELECT " + columns<T>() + " FROM " + table<T>() + " WHERE id = ?");
  statement.bind(1, id);
  if (!statement.executeStep()) return std::nullopt;
  T record = row<T>(statement);
  statement.reset();
  return record;
}

/// Every row, by id.
template <class T>
std::vector<T> every(Daybook::Connection& connection) {
  SQLite::Statement& statement =
      connection.statement("SELECT " + columns<T>() + " FROM " + table<T>() + " ORDER BY id");
  std::vector<T> records;
  while (statement.executeStep()) records.push_back(row<T>(statement));
  return records;
}

}  // namespace barm::storage::internal

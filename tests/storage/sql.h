#pragma once
// A daybook as any other program sees it: through SQLite alone.
#include <gtest/gtest.h>
#include <sqlite3.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace barm::storage::test {

/// The rows a statement gives, columns set apart by "|".
inline std::vector<std::string> rows_of(const std::string& file, const std::string& sql) {
  sqlite3* raw = nullptr;
  EXPECT_EQ(sqlite3_open(file.c_str(), &raw), SQLITE_OK);
  std::vector<std::string> rows;
  const auto take = [](void* to, int columns, char** values, char** /*names*/) {
    std::string row;
    for (int i = 0; i < columns; ++i)
      row += std::string(i == 0 ? "" : "|") + (values[i] == nullptr ? "NULL" : values[i]);
    static_cast<std::vector<std::string>*>(to)->push_back(row);
    return 0;
  };
  EXPECT_EQ(sqlite3_exec(raw, sql.c_str(), take, &rows, nullptr), SQLITE_OK)
      << sqlite3_errmsg(raw) << "\n"
      << sql;
  sqlite3_close(raw);
  return rows;
}

inline void run_sql(const std::string& file, const std::string& sql) {
  static_cast<void>(rows_of(file, sql));
}

/// "quote(id), quote(revision), …": every column of a table as text that tells blobs apart.
inline std::string quoted_columns(const std::string& file, const std::string& table) {
  std::string columns;
  for (const std::string& name :
       rows_of(file, "SELECT name FROM pragma_table_info('" + table + "')"))
    columns += (columns.empty() ? "quote(" : ", quote(") + name + ")";
  return columns;
}

/// Makes a daybook of an older barm from versions/NAME.sql.
inline void make_version(const std::string& file, const std::string& name) {
  std::ostringstream sql;
  sql << std::ifstream(BARM_TEST_DATA "/storage/versions/" + name + ".sql").rdbuf();
  ASSERT_FALSE(sql.str().empty()) << name;
  run_sql(file, "PRAGMA journal_mode = WAL;" + sql.str());
}

}  // namespace barm::storage::test

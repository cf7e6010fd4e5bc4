#pragma once
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace barm::test {

using CsvRow = std::map<std::string, std::string>;

/// Rows of a CSV of tests/truth/data, by column name; '#' lines are comments; quotes as in RFC
/// 4180.
inline std::vector<CsvRow> read_csv(const std::string& name) {
  std::ifstream in(std::string(BARM_TEST_DATA) + "/truth/data/" + name);
  if (!in) throw std::runtime_error("no truth data " + name);
  std::vector<std::string> header;
  std::vector<CsvRow> rows;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line[0] == '#') continue;
    std::vector<std::string> cells(1);
    bool inside = false;
    for (const char c : line) {
      if (c == '"') {
        inside = !inside;
      } else if (c == ',' && !inside) {
        cells.emplace_back();
      } else if (c != '\r') {
        cells.back() += c;
      }
    }
    if (header.empty()) {
      header = cells;
      continue;
    }
    CsvRow row;
    for (std::size_t i = 0; i < header.size() && i < cells.size(); ++i) row[header[i]] = cells[i];
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace barm::test

#pragma once
// A TOML file as a tree that remembers where everything stands. The TOML library stays in
// document.cpp; every file that a baker writes is read through this one.
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "formula/bake.h"

namespace barm::formula {

struct Entry;

/// One value of the file.
struct Node {
  enum class Kind { text, whole, real, truth, date, date_time, table, list };

  Kind kind = Kind::text;
  /// Text; a local date and time as "2026-11-28T07:00", a time as "07:00", a date as "2026-11-28".
  std::string text;
  double number = 0;           ///< whole and real; 1 of true, 0 of false
  std::vector<Entry> entries;  ///< table, in the order of the file
  std::vector<Node> items;     ///< list
  FilePlace place;
};

/// One key with its value; `place` is the key's.
struct Entry {
  std::string key;
  FilePlace place;
  Node value;
};

/// The value of that key in a table, or nullptr.
[[nodiscard]] const Node* find(const Node& table, std::string_view key);

/// What stands in a file; of a longer one just more than parse_document takes. Errors: not_found
/// (no such file, a folder).
[[nodiscard]] Result<std::string> read_text(const std::string& path);

/// Errors: bad_input with file:line:column (over 1 MB, not UTF-8, a NUL byte, wrong TOML, nested
/// too deeply, a date that is not local).
[[nodiscard]] Result<Node> parse_document(std::string_view text, const std::string& file);

}  // namespace barm::formula

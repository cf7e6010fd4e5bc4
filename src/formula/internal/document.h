#pragma once
// A TOML file as a tree that remembers where everything stands. The TOML library stays in
// document.cpp.
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "formula/bake.h"

namespace barm::formula::internal {

struct Entry;

/// One value of the file.
struct Node {
  enum class Kind { text, whole, real, truth, date_time, table, list };

  Kind kind = Kind::text;
  std::string text;   ///< text; a local date and time as "2026-11-28T07:00", a time as "07:00"
  double number = 0;  ///< whole and real
  std::vector<Entry> entries;  ///< table, in the order of the file
  std::vector<Node> items;     ///< list
  Place place;
};

/// One key with its value; `place` is the key's.
struct Entry {
  std::string key;
  Place place;
  Node value;
};

/// The value of that key in a table, or nullptr.
[[nodiscard]] const Node* find(const Node& table, std::string_view key);

/// Errors: bad_input with file:line:column (over 1 MB, not UTF-8, a NUL byte, wrong TOML, nested
/// too deeply, a date that is not local).
[[nodiscard]] Result<Node> parse_document(std::string_view text, const std::string& file);

}  // namespace barm::formula::internal

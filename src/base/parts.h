#pragma once
#include <algorithm>
#include <string_view>
#include <vector>

namespace barm {

/// The parts of a table's cell that holds several, "whey;milk sugar"; empty ones are left out. They
/// live as long as the text.
[[nodiscard]] inline std::vector<std::string_view> parts_of(std::string_view list) {
  std::vector<std::string_view> out;
  while (!list.empty()) {
    const std::size_t end = std::min(list.find(';'), list.size());
    if (end > 0) out.push_back(list.substr(0, end));
    list.remove_prefix(std::min(end + 1, list.size()));
  }
  return out;
}

}  // namespace barm

#include "service/bake/mixed_line.h"

#include <algorithm>
#include <string_view>

#include "formula/read.h"

namespace barm::service {

namespace {

bool is_mixed_at(const std::string& toml, const time::LocalTime& local) {
  const auto bake = formula::parse_bake(toml, "bake");
  return bake && bake->mixed_at && bake->mixed_at->text() == local.text();
}

bool sets_mixed(std::string_view line) {
  line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
  if (!line.starts_with("mixed")) return false;
  line.remove_prefix(5);
  line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
  return line.starts_with("=");
}

// Where the top of the file ends: its first table.
std::size_t first_table(const std::string& toml) {
  if (toml.starts_with("[")) return 0;
  const std::size_t at = toml.find("\n[");
  return at == std::string::npos ? toml.size() : at + 1;
}

}  // namespace

std::string mixed_at(const std::string& toml, const time::LocalTime& local) {
  if (is_mixed_at(toml, local)) return toml;
  const std::string line = "mixed = " + local.text() + ":00";
  const std::size_t top = first_table(toml);
  std::string out = line + "\n" + toml;
  for (std::size_t at = 0; at < top;) {
    const std::size_t end = std::min(toml.find('\n', at), toml.size());
    const std::string_view old = std::string_view(toml).substr(at, end - at);
    if (sets_mixed(old)) {
      const std::size_t remark = old.find('#');
      const std::string kept =
          remark == std::string_view::npos ? "" : "   " + std::string(old.substr(remark));
      out = toml.substr(0, at) + line + kept + toml.substr(end);
      break;
    }
    at = end + 1;
  }
  return is_mixed_at(out, local) ? out : toml;
}

}  // namespace barm::service

#include "cli/daybook/brought_along.h"

#include <cstdlib>

namespace barm::cli {

namespace fs = std::filesystem;

namespace {

constexpr int keep_what_is_set = 0;

void set_if_unset(const char* name, const std::string& value) {
  ::setenv(name, value.c_str(), keep_what_is_set);
}

}  // namespace

std::optional<fs::path> brought_along(const fs::path& usual_place,
                                      const fs::path& program,
                                      const fs::path& in_share) {
  std::error_code none;
  if (fs::exists(usual_place, none)) return std::nullopt;
  fs::path ours = program.parent_path().parent_path() / "share" / in_share;
  if (!fs::exists(ours, none)) return std::nullopt;
  return ours;
}

std::optional<std::string> zone_of_link(const fs::path& link) {
  constexpr std::string_view folder = "/zoneinfo/";
  std::error_code none;
  const std::string target = fs::read_symlink(link, none).string();
  const std::size_t at = target.find(folder);
  if (at == std::string::npos) return std::nullopt;
  return target.substr(at + folder.size());
}

void use_what_was_brought_along() {
  std::error_code none;
  const fs::path program = fs::read_symlink("/proc/self/exe", none);
  if (const auto rules = brought_along("/usr/share/zoneinfo", program, "zoneinfo")) {
    set_if_unset("TZDIR", rules->string());
    if (const auto zone = zone_of_link("/etc/localtime")) set_if_unset("TZ", *zone);
  }
  if (const auto fonts = brought_along("/etc/fonts/fonts.conf", program, "fonts/fonts.conf"))
    set_if_unset("FONTCONFIG_FILE", fonts->string());
}

}  // namespace barm::cli

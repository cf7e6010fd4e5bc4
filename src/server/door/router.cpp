#include "server/door/router.h"

#include <optional>

#include "base/require.h"

namespace barm::server {

namespace {

// The next step of a path, up to the slash.
std::string_view take_step(std::string_view& path) {
  path.remove_prefix(1);
  const std::string_view step = path.substr(0, path.find('/'));
  path.remove_prefix(step.size());
  return step;
}

std::optional<Parts> match(std::string_view pattern, std::string_view path) {
  Parts parts;
  while (!pattern.empty() && !path.empty()) {
    if (path.front() != '/') return std::nullopt;
    const std::string_view wanted = take_step(pattern);
    const std::string_view step = take_step(path);
    if (wanted.starts_with('{')) {
      if (step.empty()) return std::nullopt;
      parts.emplace(wanted.substr(1, wanted.size() - 2), step);
    } else if (wanted != step) {
      return std::nullopt;
    }
  }
  if (!pattern.empty() || !path.empty()) return std::nullopt;
  return parts;
}

}  // namespace

void Router::add(Route route) {
  require(route.path.starts_with('/'), "a route's path begins with a slash");
  routes_.push_back(std::move(route));
}

Router::Found Router::find(std::string_view method, std::string_view path) const {
  Found found;
  for (const Route& route : routes_) {
    auto parts = match(route.path, path);
    if (!parts) continue;
    if (route.method == method) return {&route, std::move(*parts), {}};
    found.methods.push_back(route.method);
  }
  return found;
}

}  // namespace barm::server

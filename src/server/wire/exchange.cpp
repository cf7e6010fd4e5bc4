#include "server/wire/exchange.h"

#include <algorithm>

namespace barm::server {

std::string Request::header(const std::string& name) const {
  const auto found = headers.find(name);
  return found == headers.end() ? "" : found->second;
}

std::string Request::asked(const std::string& name) const {
  const auto found = query.find(name);
  return found == query.end() ? "" : found->second;
}

std::string Request::cookie(std::string_view name) const {
  const std::string all = header("cookie");
  std::string_view rest = all;
  while (!rest.empty()) {
    const std::size_t end = std::min(rest.find(';'), rest.size());
    std::string_view one = rest.substr(0, end);
    rest.remove_prefix(std::min(end + 1, rest.size()));
    while (!one.empty() && one.front() == ' ') one.remove_prefix(1);
    const std::size_t equals = one.find('=');
    if (equals != std::string_view::npos && one.substr(0, equals) == name)
      return std::string(one.substr(equals + 1));
  }
  return "";
}

bool Request::takes_gzip() const {
  return header("accept-encoding").find("gzip") != std::string::npos;
}

bool Reply::has(std::string_view header) const {
  return std::any_of(
      headers.begin(), headers.end(), [&](const auto& one) { return one.first == header; });
}

bool Request::from_here() const { return remote == "127.0.0.1" || remote == "::1"; }

}  // namespace barm::server

#include "server/door/guard.h"

#include <algorithm>
#include <charconv>
#include <utility>

#include "server/door/problem.h"

namespace barm::server {

namespace {

struct Host {
  std::string name;  ///< in lower case
  int port = 0;      ///< 0 when it cannot be
};

// "localhost:8410"; without a port the one that the scheme means.
Host host_of(const std::string& header, bool secure) {
  Host host;
  const std::size_t colon = header.rfind(':');
  host.name = header.substr(0, colon);
  std::transform(host.name.begin(), host.name.end(), host.name.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  if (colon == std::string::npos) {
    host.port = secure ? 443 : 80;
    return host;
  }
  const char* begin = header.data() + colon + 1;
  const char* end = header.data() + header.size();
  const auto [stopped, error] = std::from_chars(begin, end, host.port);
  if (error != std::errc() || stopped != end) host.port = 0;
  return host;
}

bool is_under_api(const std::string& path) { return path.starts_with("/api/") || path == "/api"; }

}  // namespace

Guard::Guard(std::vector<std::string> names, std::optional<Pairing> pairing)
    : names_(std::move(names)), pairing_(std::move(pairing)) {}

bool Guard::knows_host(const Request& request) const {
  if (request.repeated_host) return false;
  const Host host = host_of(request.header("host"), request.secure);
  if (host.port != port_) return false;
  // An address in figures can only be ours, but a name could be anybody's who points it here.
  return host.name == request.local ||
         std::find(names_.begin(), names_.end(), host.name) != names_.end();
}

bool Guard::is_own_origin(const Request& request) const {
  const auto origin = request.headers.find("origin");
  if (origin != request.headers.end()) {
    const std::string scheme = request.secure ? "https://" : "http://";
    return origin->second == scheme + request.header("host");
  }
  // Browsers say so even where they send no origin; other programs say neither.
  const std::string site = request.header("sec-fetch-site");
  const bool from_elsewhere = site == "cross-site" || site == "same-site";
  return !from_elsewhere || !is_under_api(request.path);
}

bool Guard::is_paired(const Request& request) const {
  if (request.from_here()) return true;
  return pairing_ && pairing_->knows(request.cookie(cookie_name(request.secure)));
}

std::string Guard::device(const Request& request) const {
  return pairing_ ? pairing_->device(request.cookie(cookie_name(request.secure))) : "";
}

std::optional<Reply> Guard::refuses(const Request& request, bool open) const {
  if (!knows_host(request)) {
    return problem(Refusal::wrong_host,
                   "this server does not go by that name; use the address shown in the terminal");
  }
  if (!is_own_origin(request)) {
    return problem(Refusal::wrong_origin, "another site's page asked; only barm's own page may");
  }
  if (!open && !is_paired(request)) {
    return problem(Refusal::not_paired,
                   "this device is not paired: give the key shown in the terminal");
  }
  return std::nullopt;
}

std::string cookie_name(bool secure) { return secure ? "__Host-barm" : "barm"; }

void add_safety(Reply& reply) {
  static constexpr const char* of_page =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; "
      "font-src 'self'; connect-src 'self'; media-src 'self' blob: data:; manifest-src 'self'; "
      "worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
  static constexpr const char* of_sheet =
      "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; "
      "form-action 'none'; frame-ancestors 'none'; sandbox";
  reply.with("Content-Security-Policy", reply.sheet ? of_sheet : of_page)
      .with("X-Content-Type-Options", "nosniff")
      .with("X-Frame-Options", "DENY")
      .with("Referrer-Policy", "no-referrer")
      .with("Cross-Origin-Opener-Policy", "same-origin")
      .with("Cross-Origin-Resource-Policy", "same-origin");
  if (!reply.has("Cache-Control")) reply.with("Cache-Control", "no-store");
}

}  // namespace barm::server

#include "server/wire/network.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <memory>

namespace barm::server {

namespace {

bool is_home_like(const std::string& address) {
  return address.starts_with("192.168.") || address.starts_with("10.");
}

}  // namespace

std::vector<std::string> own_addresses() {
  ifaddrs* all = nullptr;
  if (::getifaddrs(&all) != 0) return {};
  const std::unique_ptr<ifaddrs, decltype(&::freeifaddrs)> list(all, ::freeifaddrs);
  std::vector<std::string> out;
  for (const ifaddrs* one = all; one != nullptr; one = one->ifa_next) {
    const bool counts = one->ifa_addr != nullptr && one->ifa_addr->sa_family == AF_INET &&
                        (one->ifa_flags & IFF_UP) != 0 && (one->ifa_flags & IFF_LOOPBACK) == 0;
    if (!counts) continue;
    std::array<char, INET_ADDRSTRLEN> text{};
    const auto* of = reinterpret_cast<const sockaddr_in*>(one->ifa_addr);
    if (::inet_ntop(AF_INET, &of->sin_addr, text.data(), text.size()) != nullptr)
      out.emplace_back(text.data());
  }
  std::stable_partition(out.begin(), out.end(), is_home_like);
  return out;
}

std::string own_name() {
  std::array<char, 256> text{};
  if (::gethostname(text.data(), text.size() - 1) != 0) return "localhost";
  std::string name = text.data();
  std::transform(name.begin(), name.end(), name.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  const bool fits = !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '.';
  });
  return fits ? name : "localhost";
}

}  // namespace barm::server

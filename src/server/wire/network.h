#pragma once
#include <string>
#include <vector>

namespace barm::server {

/// This machine's IPv4 addresses on its networks, without the loopback; the likeliest to be reached
/// from a telephone first.
[[nodiscard]] std::vector<std::string> own_addresses();

/// Its name, "marsh", in lower case; "localhost" when it has none that may stand in an address.
[[nodiscard]] std::string own_name();

}  // namespace barm::server

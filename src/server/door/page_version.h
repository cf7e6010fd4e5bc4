#pragma once
// Which barm answers, and of which barm a page is. A page stays open, or comes from the browser's
// own store, while the program behind it is exchanged for another.
#include <optional>
#include <string>

#include "server/wire/exchange.h"

namespace barm::server {

/// Every reply says its version under this name.
inline constexpr const char* version_header = "Barm-Version";

/// A page says the version it came with under this name when it sends something.
inline constexpr const char* page_header = "barm-page";

[[nodiscard]] std::string own_version();

/// A problem for a page of another version that sends something: it may mean something else by it.
/// Nothing for a page of ours, for what only asks, and for clients that are no page.
[[nodiscard]] std::optional<Reply> refuse_stale_page(const Request& request);

}  // namespace barm::server

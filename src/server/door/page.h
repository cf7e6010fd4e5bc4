#pragma once
// The page's files, from memory.
#include "server/wire/exchange.h"

namespace barm::server {

/// The file of that path, or the page itself for a path of its own such as "/bakes/7". With an ETag
/// (304 when the client has it), compressed when the client takes it, for ever in the cache when
/// its name holds a digest. Throws Refused when there is none.
[[nodiscard]] Reply page_file(const Request& request);

/// Whether the program was built with its page.
[[nodiscard]] bool page_is_there();

}  // namespace barm::server

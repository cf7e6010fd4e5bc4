#pragma once
// The clock by which a request is answered.
#include "server/wire/exchange.h"
#include "service/now.h"

namespace barm::server {

/// The machine's moment on the wall of whoever asks: the header Barm-Zone names its zone (IANA), in
/// a link the query's `zone`; without it the machine's. Throws Refused for a zone that is none.
[[nodiscard]] service::Now asked_now(const Request& request);

/// The name of that wall's zone; empty: the machine's own.
[[nodiscard]] std::string asked_zone(const Request& request);

}  // namespace barm::server

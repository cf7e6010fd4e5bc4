#pragma once
// The routes by which a device is paired, forgets this server, and has its certificate.
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "server/door/guard.h"
#include "server/door/router.h"
#include "server/records/events.h"
#include "server/wire/certificate.h"

namespace barm::server {

/// All must outlive the router. The route of the certificate is there only with one. `addresses`:
/// where the server is to be found, as its terminal says.
void add_pairing_routes(Router& router,
                        Guard& guard,
                        Events& events,
                        const std::optional<Certificate>& certificate,
                        std::function<std::vector<std::string>()> addresses);

}  // namespace barm::server

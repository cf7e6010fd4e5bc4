#pragma once
// The routes by which a device is paired, forgets this server, and has its certificate.
#include <optional>

#include "server/certificate.h"
#include "server/events.h"
#include "server/guard.h"
#include "server/router.h"

namespace barm::server {

/// All must outlive the router. The route of the certificate is there only with one.
void add_pairing_routes(Router& router,
                        Guard& guard,
                        Events& events,
                        const std::optional<Certificate>& certificate);

}  // namespace barm::server

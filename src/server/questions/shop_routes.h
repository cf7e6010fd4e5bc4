#pragma once
// The sheets of the till and of the label, to print.
#include <functional>

#include "server/door/router.h"
#include "server/questions/asked_bake.h"
#include "server/questions/turns.h"

namespace barm::server {

/// `GET /api/bakes/{id}/label.html`, `/prices.html`, `/till.csv` and `/api/prices/example`.
void add_shop_routes(Router& router,
                     Turns& turns,
                     const std::function<StoredBakes(const service::Now&)>& stored);

}  // namespace barm::server

#pragma once
// The questions of the till and of the label, and their sheets to print.
#include <functional>
#include <vector>

#include "server/door/router.h"
#include "server/questions/ask.h"
#include "server/questions/turns.h"

namespace barm::server {

/// `POST /api/till`, `/api/label`, `/api/prices`. Prices that a request leaves out are those of the
/// daybook's setting "price-file".
[[nodiscard]] std::vector<Question> shop_questions();

/// `GET /api/bakes/{id}/label.html`, `/prices.html`, `/till.csv` and `/api/prices/example`.
void add_shop_routes(Router& router,
                     Turns& turns,
                     const std::function<StoredBakes(const service::Now&)>& stored);

}  // namespace barm::server

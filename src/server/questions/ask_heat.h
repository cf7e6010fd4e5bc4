#pragma once
// The questions of heat: the water, a drink simmered, the dough out of the mixer, doughs in a
// fridge, the loaf in its oven.
#include <vector>

#include "server/questions/ask.h"

namespace barm::server {

/// `POST /api/water`, `/api/simmer`, `/api/mix`, `/api/fridge`, `/api/oven`.
[[nodiscard]] std::vector<Question> heat_questions();

}  // namespace barm::server

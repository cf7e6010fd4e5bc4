#pragma once
// The questions about a dough that somebody makes: what was read of it, what to do with it and
// when.
#include <vector>

#include "server/questions/ask.h"

namespace barm::server {

/// `POST /api/read`, `/api/rescue`, `/api/jar`, `/api/when`, `/api/calendar`.
[[nodiscard]] std::vector<Question> dough_questions();

}  // namespace barm::server

#pragma once
// The question about a day of several bakes.
#include <vector>

#include "server/questions/ask.h"

namespace barm::server {

[[nodiscard]] std::vector<Question> day_questions();

}  // namespace barm::server

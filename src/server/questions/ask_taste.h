#pragma once
// The questions about what of a drink comes through.
#include <vector>

#include "server/questions/ask.h"

namespace barm::server {

[[nodiscard]] std::vector<Question> taste_questions();

}  // namespace barm::server

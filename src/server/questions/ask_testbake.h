#pragma once
// The questions of a test bake, from its plan to what to bake next.
#include <vector>

#include "server/questions/ask.h"

namespace barm::server {

/// `POST /api/testbake-plan`, `-before`, `-after`, `-next`, `-show`. The test bake comes as
/// `test_bake`, the text of its file or the same as an object, without the names of other files:
/// the bake it is made from is `bake` or `bake_id`, the heights of its jars are `readings`.
[[nodiscard]] std::vector<Question> testbake_questions();

}  // namespace barm::server

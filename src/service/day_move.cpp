#include "service/day.h"

namespace barm::service {

Result<std::optional<MoveRequest>> asked_move(const std::string& move, const std::string& to) {
  if (move.empty() && to.empty()) return std::nullopt;
  if (move.empty())
    return failure(ErrorCode::bad_input, "--to", "goes with a step to move: Mead loaf: divide");
  const std::size_t colon = move.rfind(": ");
  if (colon == std::string::npos || to.empty()) {
    return failure(ErrorCode::bad_input,
                   "--move",
                   "a bake and its step, such as 'Mead loaf: divide', and where to, such as "
                   "2026-11-27T15:30");
  }
  return MoveRequest{move.substr(0, colon), move.substr(colon + 2), to};
}

}  // namespace barm::service

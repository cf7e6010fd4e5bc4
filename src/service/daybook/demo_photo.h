#pragma once
#include <string>

namespace barm::service {

/// A cut loaf on a board, drawn: in the demonstration it stands where a photo would. A PNG.
[[nodiscard]] std::string drawn_loaf();

}  // namespace barm::service

#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace barm::shop {

/// A piece of a label's text; what is strong is set off by its type.
struct TextPiece {
  std::string text;
  bool strong = false;
};

using LabelText = std::vector<TextPiece>;

/// "wheat flour": as it reads; strong pieces in capitals when `capitals`.
[[nodiscard]] std::string plain(const LabelText& text, bool capitals = false);

/// "{wheat} flour" with what stands in braces strong.
[[nodiscard]] LabelText marked(std::string_view text, bool with_emphasis = true);

}  // namespace barm::shop

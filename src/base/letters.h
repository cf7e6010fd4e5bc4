#pragma once
#include <string>
#include <string_view>

namespace barm {

/// The text in small letters; ASCII only, so that it says the same in every locale.
[[nodiscard]] inline std::string small_letters(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

}  // namespace barm

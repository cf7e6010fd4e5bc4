#pragma once
#include <string>
#include <string_view>

namespace barm {

/// The text with everything in it to be seen and nothing to be obeyed: a control character as its
/// picture (␛), what turns the direction of writing and what is no UTF-8 as �. Line ends stay.
/// For names on their way to a terminal, which would do what a control character in one says.
[[nodiscard]] std::string visible(std::string_view text);

/// Bytes at the text's start that are one character of UTF-8 (RFC 3629: no overlong forms, no
/// surrogates, nothing over U+10FFFF); 0 when there is none.
[[nodiscard]] std::size_t character_length(std::string_view text);

}  // namespace barm

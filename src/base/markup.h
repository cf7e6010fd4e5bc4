#pragma once
#include <string>
#include <string_view>

namespace barm {

/// `<`, `>`, `&` and quotes as XML and HTML want them; control characters are left out.
[[nodiscard]] std::string escaped(std::string_view text);

}  // namespace barm

#pragma once
#include <cstddef>
#include <string>

#include "base/result.h"

namespace barm {

/// All of a file's bytes. Errors: not_found (none there, a folder, not to be read); bad_input (over
/// `most` bytes: no more than that is read of it).
[[nodiscard]] Result<std::string> file_text(const std::string& path, std::size_t most);

}  // namespace barm

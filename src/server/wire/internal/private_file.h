#pragma once
#include <string>

namespace barm::server::internal {

/// Writes a file that only its owner may read (0600), whole or not at all. Throws
/// std::filesystem::filesystem_error when the disk refuses.
void write_private(const std::string& path, const std::string& text);

/// Makes a folder that only its owner may enter (0700), if there is none.
void make_private_folder(const std::string& path);

}  // namespace barm::server::internal

#pragma once
#include <cstdint>
#include <optional>
#include <string>

#include "base/result.h"

namespace barm::storage::internal {

/// A photo as the daybook keeps it: upright JPEGs without what the camera wrote about place and
/// time.
struct Pictures {
  std::string picture;                 ///< at most 2400 pixels long
  std::string thumbnail;               ///< at most 320
  std::int64_t width = 0, height = 0;  ///< of the picture
};

/// Its size is looked at before it is decoded, and only one is decoded at a time in the whole
/// program. Errors: bad_input (neither JPEG nor PNG, over 25 MB or 60 megapixels, broken).
[[nodiscard]] Result<Pictures> make_pictures(const std::string& bytes);

struct PictureSize {
  std::int64_t width = 0, height = 0;
};

/// What the head of a JPEG of at most 2400 pixels a side says; nothing for anything else.
[[nodiscard]] std::optional<PictureSize> own_jpeg_size(const std::string& bytes);

/// How a JPEG says it is to be turned: 1 to 8 as in EXIF 2.3, tag 0x0112; 1 when it does not say.
[[nodiscard]] int orientation(const std::string& jpeg);

}  // namespace barm::storage::internal

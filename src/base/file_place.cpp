#include "base/file_place.h"

namespace barm {

std::string FilePlace::text() const {
  if (line == 0) return file;
  return file + ":" + std::to_string(line) + ":" + std::to_string(column);
}

}  // namespace barm

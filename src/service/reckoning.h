#pragma once
#include <string_view>

namespace barm::service {

/// A digest of the larder, the constants and the code by which this program reckons: what is kept
/// with another one was reckoned otherwise. Written while building (cmake/WriteReckoning.cmake).
[[nodiscard]] std::string_view reckoning_digest();

}  // namespace barm::service

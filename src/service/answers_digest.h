#pragma once
#include <string_view>

namespace barm::service {

/// A digest of the larder, the constants and the code by which this program answers: what is kept
/// with another one was worked out otherwise. Written while building
/// (cmake/WriteAnswersDigest.cmake).
[[nodiscard]] std::string_view answers_digest();

}  // namespace barm::service

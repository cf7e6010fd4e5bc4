#pragma once
#include <string>
#include <tl/expected.hpp>
#include <utility>

#include "base/error.h"

namespace barm {

/// A value, or the Error that says why there is none. Cannot be ignored.
template <class T>
class [[nodiscard]] Result : public tl::expected<T, Error> {
 public:
  using tl::expected<T, Error>::expected;
};

/// What a function returns to fail: `return failure(ErrorCode::bad_input, "mead.toml:3:1", "…");`
[[nodiscard]] inline tl::unexpected<Error> failure(ErrorCode code,
                                                   std::string where,
                                                   std::string message) {
  return tl::unexpected<Error>(Error{code, std::move(where), std::move(message)});
}

/// The same at a place in a file.
[[nodiscard]] inline tl::unexpected<Error> failure(ErrorCode code,
                                                   const FilePlace& place,
                                                   std::string message) {
  return tl::unexpected<Error>(error_at(place, code, std::move(message)));
}

[[nodiscard]] inline tl::unexpected<Error> failure(Error error) {
  return tl::unexpected<Error>(std::move(error));
}

/// Passes another result's error on.
template <class T>
[[nodiscard]] tl::unexpected<Error> failure(const Result<T>& failed) {
  return tl::unexpected<Error>(failed.error());
}

}  // namespace barm

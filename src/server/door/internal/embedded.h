#pragma once
// Files that are part of the program. cmake/Embed.cmake.
#include <string_view>
#include <vector>

namespace barm::server::internal {

struct Embedded {
  std::string_view path;  ///< "/index.html"
  std::string_view bytes;
  std::string_view packed;  ///< by gzip; may be empty
};

/// The page, empty when it was not built.
[[nodiscard]] std::vector<Embedded> page();

/// What is served when there is no page.
[[nodiscard]] std::vector<Embedded> no_page();

[[nodiscard]] std::vector<Embedded> examples();

/// A price file to start from.
[[nodiscard]] std::vector<Embedded> price_example();

/// docs/openapi.json.
[[nodiscard]] std::vector<Embedded> contract();

}  // namespace barm::server::internal

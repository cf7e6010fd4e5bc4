#pragma once
// The bake that a question is about.
#include <functional>
#include <string>
#include <vector>

#include "base/error.h"
#include "formula/bake.h"
#include "server/fields.h"

namespace barm::server {

/// Bakes of the daybook by their id. Both throw Refused when there is none.
struct StoredBakes {
  std::function<formula::Bake(const std::string& id)> bake;  ///< with what its marks say
  std::function<std::string(const std::string& id)> text;    ///< of its file
  /// A setting of the bakery; empty when there is none.
  std::function<std::string(const std::string& id)> setting;
};

/// The text of a bake in a request, given as text, as an object, or by an id.
struct AskedText {
  std::string text;
  std::string field;                  ///< its JSON pointer
  std::vector<std::string> pointers;  ///< of each line, when it was an object
};

/// Of the member `key`, or `id_key` instead: "bake" and "bake_id". Throws Refused.
[[nodiscard]] AskedText asked_text(Fields& fields,
                                   const std::string& key,
                                   const std::string& id_key,
                                   const StoredBakes& stored);

/// The bake of a text. Throws Refused with line, column and field.
[[nodiscard]] formula::Bake bake_of(const AskedText& asked);

/// The bake of those members, `weighed_g` laid over it. Throws Refused.
[[nodiscard]] formula::Bake asked_bake(Fields& fields, const StoredBakes& stored);
[[nodiscard]] formula::Bake asked_bake(Fields& fields,
                                       const std::string& key,
                                       const std::string& id_key,
                                       const StoredBakes& stored);

}  // namespace barm::server

#pragma once
// What the larder knows.
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "base/result.h"
#include "larder/ingredient.h"

namespace barm::service {

/// Ingredients whose name, other names or group hold the words; all of them for no words.
/// Errors: not_found with near names.
[[nodiscard]] Result<std::vector<larder::Ingredient>> larder_with(const std::string& words);

/// The one of that name. Errors: not_found with near names, at `field`.
[[nodiscard]] Result<larder::Ingredient> named_in_larder(const std::string& field,
                                                         const std::string& words);

/// `barm.larder/1`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const std::vector<larder::Ingredient>& ingredients);
/// The same without what is known of them: enough to pick one.
[[nodiscard]] nlohmann::json to_list(const std::vector<larder::Ingredient>& ingredients);

}  // namespace barm::service

#pragma once
// A drink thinned with water.
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "base/result.h"
#include "formula/solve.h"

namespace barm::service {

/// Thinning a drink with water to a strength.
struct ThinAnswer {
  std::string drink;
  AlcoholByVolume wanted;
  formula::Thinned thinned;
};

/// Errors: bad_input, not_found, cannot_be_met when the drink is weaker than that.
[[nodiscard]] Result<ThinAnswer> thin(const std::string& drink,
                                      const std::string& strength,
                                      Mass total);

/// `barm.thin/1`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const ThinAnswer& answer);

}  // namespace barm::service

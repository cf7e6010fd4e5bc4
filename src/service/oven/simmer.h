#pragma once
// A drink simmered before it goes in: how long, what is left, what the vapour can do.
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "base/result.h"
#include "drink/simmer.h"
#include "larder/ingredient.h"

namespace barm::service {

struct SimmerRequest {
  std::string drink;  ///< of the larder
  drink::Pan pan;
  drink::Until until;
};

/// What a kilogram holds, before and after.
struct Held {
  Mass alcohol, acid, sugar;                   ///< of the whole pan
  double sulphite_low = 0, sulphite_high = 0;  ///< [mg] of the whole pan
};

struct SimmerAnswer {
  std::string drink;
  SimmerRequest request;
  drink::Simmered simmered;
  AlcoholByVolume strength_before, strength_after;
  Held before, after;
  Volume volume_after;
  std::optional<Temperature> flash_point;  ///< of the drink as it goes in
  std::vector<std::string> cautions;
};

/// Errors: not_found (no such drink), those of drink::simmer().
[[nodiscard]] Result<SimmerAnswer> simmer(const SimmerRequest& request);

/// "60 %", or "2 % vol": where to stop. Errors: bad_input.
[[nodiscard]] Result<drink::Until> parse_until(const std::string& text);

/// "barm.simmer/1".
[[nodiscard]] nlohmann::json to_json(const SimmerAnswer& answer);

}  // namespace barm::service

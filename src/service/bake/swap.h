#pragma once
// A drink for a share of the water, with the real water of the dough held.
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "service/bake/bowl.h"

namespace barm::service {

/// The bake after the swap.
struct SwapAnswer {
  std::string drink;
  double share = 0;                  ///< of drink and water together, by weight
  std::string text;                  ///< its bake file
  std::vector<std::string> working;  ///< step by step
  BowlAnswer bowl;
};

/// Writes the bake so that the drink is `share` of drink and water together and the dough holds as
/// much real water to its flour as before: a drink is not all water, so more of it is poured. Lines
/// that were a share of the liquid become baker's percentages. Errors: as parse_bake and bowl();
/// not_found (no such drink in the larder), cannot_be_met (no water in the bowl to take from, no
/// water in the drink).
[[nodiscard]] Result<SwapAnswer> swap_drink(std::string_view bake_text,
                                            const std::string& drink,
                                            double share);

[[nodiscard]] nlohmann::ordered_json to_json(const SwapAnswer& answer);

}  // namespace barm::service

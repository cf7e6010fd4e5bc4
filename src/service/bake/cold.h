#pragma once
// What comes out of a fridge, said: straight into the oven or not, and how long it may stay.
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "forecast/timeline.h"

namespace barm::service {

/// "Out of the cold: straight into the oven. It may stay in the cold 20 h (16 h to 30 h)". Empty
/// where nothing proofs in the cold.
[[nodiscard]] std::string out_of_the_cold_in_words(const forecast::Timeline& timeline);

/// The member `out_of_the_cold` of an answer; null without one.
[[nodiscard]] nlohmann::json out_of_the_cold_json(const forecast::Timeline& timeline);

}  // namespace barm::service

#pragma once
// Answers as JSON. Units stand in the key names; times are hours after mixing; null is "not within
// the horizon". The schema is documented in docs/json.md and changes only with its version.
#include <nlohmann/json_fwd.hpp>

#include "service/use_cases.h"

namespace barm::service {

[[nodiscard]] nlohmann::json to_json(const BowlAnswer& answer);
[[nodiscard]] nlohmann::json to_json(const ForeseeAnswer& answer);
[[nodiscard]] nlohmann::json to_json(const ReachAnswer& answer);
[[nodiscard]] nlohmann::json to_json(const MatchAnswer& answer);
[[nodiscard]] nlohmann::json to_json(const ThinAnswer& answer);
[[nodiscard]] nlohmann::json to_json(const WaterAnswer& answer);
[[nodiscard]] nlohmann::json to_json(const SolveAnswer& answer);
[[nodiscard]] nlohmann::json to_json(const LevainAnswer& answer);
[[nodiscard]] nlohmann::json to_json(const std::vector<larder::Ingredient>& ingredients);
/// The same without what is known of them: enough to pick one.
[[nodiscard]] nlohmann::json to_list(const std::vector<larder::Ingredient>& ingredients);
[[nodiscard]] nlohmann::json to_json(const std::vector<data::Entry>& entries);
[[nodiscard]] nlohmann::json to_json(const RestingAnswer& answer);
[[nodiscard]] nlohmann::json to_json(const Error& error);

}  // namespace barm::service

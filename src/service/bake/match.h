#pragma once
// The same alcohol and real water as another bake.
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "base/result.h"
#include "formula/bake.h"
#include "formula/solve.h"

namespace barm::service {

/// The same alcohol and real water as another bake, from this bake's bottle.
struct MatchAnswer {
  formula::Bake bake, other;
  formula::Solution solution;
};

[[nodiscard]] Result<MatchAnswer> match(const formula::Bake& bake, const formula::Bake& other);
[[nodiscard]] Result<MatchAnswer> match(const std::string& path, const std::string& other);

/// `barm.match/1`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const MatchAnswer& answer);

}  // namespace barm::service

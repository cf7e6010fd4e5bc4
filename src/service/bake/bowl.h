#pragma once
// What is in the bowl.
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "base/result.h"
#include "formula/bake.h"
#include "formula/bowl.h"
#include "formula/solve.h"

namespace barm::service {

/// What is in the bowl.
struct BowlAnswer {
  formula::Bake bake;
  formula::Bowl bowl;  ///< with the levain as the model ferments it
  formula::Mend mend;
  std::vector<std::string> cautions;
  std::vector<std::string> doubts;
};

[[nodiscard]] Result<BowlAnswer> bowl(const formula::Bake& bake);
[[nodiscard]] Result<BowlAnswer> bowl(const std::string& path);

/// Of a bowl that was worked out already.
[[nodiscard]] Result<BowlAnswer> bowl_answer(const formula::Bake& bake, const formula::Bowl& bowl);

/// `barm.bowl/1`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const BowlAnswer& answer);

}  // namespace barm::service

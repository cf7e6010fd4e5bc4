#pragma once
// Any set of aims over any set of free ingredients of a bake.
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "base/result.h"
#include "formula/bake.h"
#include "formula/solve.h"

namespace barm::service {

/// Any set of aims ("alcohol=60 g", "real water=70 %") over any set of free ingredients of a bake.
struct SolveAnswer {
  formula::Bake bake;
  std::vector<formula::Target> targets;
  formula::Solution solution;
};

/// Errors: bad_input for an aim that is none, not_found for an ingredient that is not in the bowl.
[[nodiscard]] Result<SolveAnswer> solve(const formula::Bake& bake,
                                        const std::vector<std::string>& aims,
                                        const std::vector<std::string>& free);
[[nodiscard]] Result<SolveAnswer> solve(const std::string& path,
                                        const std::vector<std::string>& aims,
                                        const std::vector<std::string>& free);

/// The names an aim may have, for errors and help.
[[nodiscard]] std::string aim_names();

/// `barm.solve/1`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const SolveAnswer& answer);

/// The members of an answer that say a solution.
void add_solution(nlohmann::json& out,
                  const formula::Bake& bake,
                  const formula::Solution& solution);

}  // namespace barm::service

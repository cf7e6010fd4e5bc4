#include "service/bake/match.h"

#include <nlohmann/json.hpp>

#include "formula/read.h"
#include "service/bake/solve.h"
#include "service/internal/json_parts.h"

namespace barm::service {

using nlohmann::json;

Result<MatchAnswer> match(const formula::Bake& bake, const formula::Bake& other) {
  auto solution = formula::match(bake, other);
  if (!solution) return failure(solution);
  return MatchAnswer{bake, other, std::move(*solution)};
}

Result<MatchAnswer> match(const std::string& path, const std::string& other) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  const auto model = formula::read_bake(other);
  if (!model) return failure(model);
  return service::match(*bake, *model);
}

json to_json(const MatchAnswer& answer) {
  json out = internal::document("match");
  out["name"] = answer.bake.name;
  out["like"] = answer.other.name;
  add_solution(out, answer.bake, answer.solution);
  return out;
}

}  // namespace barm::service

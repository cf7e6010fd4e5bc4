#include "service/bake/reach.h"

#include <nlohmann/json.hpp>
#include <optional>

#include "formula/read.h"
#include "service/bake/aim.h"
#include "service/internal/json_parts.h"

namespace barm::service {

using nlohmann::json;

Result<ReachAnswer> reach(const formula::Bake& written,
                          const std::string& drink,
                          Time within,
                          Probability chance,
                          const forecast::Options& wanted) {
  formula::Bake bake = written;
  forecast::Options options = wanted;
  if (bake.target_follows) {
    forecast::Made made;
    const auto ready_for = aim(bake, options, made);
    if (!ready_for) return failure(ready_for);
  }
  const auto asked = drink.empty() ? forecast::main_drink(bake) : std::optional<std::string>(drink);
  if (!asked)
    return failure(
        ErrorCode::not_found, bake.file, "no drink in this bowl; name an ingredient with --of");
  auto found = forecast::reach(bake, *asked, within, chance, options);
  if (!found) return failure(found);
  return ReachAnswer{bake, std::move(*found), chance, options.draws};
}

Result<ReachAnswer> reach(const std::string& path,
                          const std::string& drink,
                          Time within,
                          Probability chance,
                          const forecast::Options& options) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  return service::reach(*bake, drink, within, chance, options);
}

json to_json(const ReachAnswer& answer) {
  json out = internal::document("reach");
  const forecast::Reach& reach = answer.reach;
  out["name"] = answer.bake.name;
  out["drink"] = reach.drink;
  out["within_h"] = reach.within.in(hour);
  out["wanted_chance"] = answer.wanted.value();
  out["largest_share_of_liquid"] = reach.none ? json(nullptr) : json(reach.share);
  out["chance"] = reach.chance.value();
  out["ready_p50_h"] = internal::hours(reach.ready);
  out["plain_p50_h"] = internal::hours(reach.without);
  out["share_now"] = reach.now;
  out["most_share"] = reach.room;
  out["chance_now"] = reach.chance_now.value();
  out["draws"] = answer.draws;
  return out;
}

}  // namespace barm::service

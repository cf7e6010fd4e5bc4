#include "service/oven/internal/loads.h"

#include <algorithm>

#include "generated/constants.h"

namespace barm::service::internal {

Ripeness ripeness_of(const oven::Loaf& loaf) {
  constexpr double too_little_room = 0.1;
  constexpr double too_much_room = 0.9;
  if (loaf.room < too_little_room) return Ripeness::ripe;
  return loaf.room > too_much_room ? Ripeness::young : Ripeness::right;
}

Result<std::vector<FurtherLoad>> further_loads(const formula::Bake& aimed,
                                               const forecast::Options& options,
                                               const OvenAsked& asked,
                                               int pieces) {
  std::vector<FurtherLoad> out;
  const Time apart = asked.lasts + constants::baking::between_loads.value;
  for (int load = 1; load < std::min(asked.loads, most_loads); ++load) {
    const Time waited = static_cast<double>(load) * apart;
    const auto dough = forecast::foresee_middle(left_waiting(aimed, waited), options);
    if (!dough) return failure(dough);
    std::vector<std::string> told_already;
    FurtherLoad one{std::min(asked.oven.loaves, pieces - load * asked.oven.loaves),
                    waited,
                    loaf_of(*dough, {}, told_already)};
    one.loaf.form = asked.loaf.form;
    const auto baked = oven::bake(one.loaf, asked.oven, asked.lasts, asked.known.middle);
    one.rise = baked.course.back().rise;
    one.ripeness = ripeness_of(one.loaf);
    out.push_back(one);
  }
  return out;
}

}  // namespace barm::service::internal

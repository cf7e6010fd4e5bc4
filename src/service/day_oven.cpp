#include "service/day_oven.h"

#include <cmath>

#include "service/oven.h"

namespace barm::service {

Result<OvenMinutes> oven_minutes(const formula::Bake& bake) {
  const auto baked = its_oven(bake);
  if (!baked) return failure(baked);
  if (!*baked) return OvenMinutes{};
  const auto whole_minutes = [](double seconds) {
    return static_cast<float>(std::ceil(seconds / 60));
  };
  return OvenMinutes{whole_minutes((*baked)->in_oven().p50),
                     whole_minutes((*baked)->many.cut_after.p90)};
}

}  // namespace barm::service

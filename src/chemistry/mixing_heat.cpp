#include "chemistry/mixing_heat.h"

#include <string_view>

#include "base/require.h"
#include "chemistry/vapour.h"
#include "generated/constants.h"
#include "generated/tables.h"

namespace barm::chemistry {

namespace {

// Between the two rows of a quantity around a share.
double between_rows(std::string_view quantity, double share) {
  require(share >= 0 && share <= 1, "a share of ethanol lies between 0 and 1");
  const tables::ethanol_water_mixing_row* before = nullptr;
  for (const auto& row : tables::ethanol_water_mixing) {
    if (row.quantity != quantity) continue;
    if (before != nullptr && share <= row.share) {
      return before->value +
             (row.value - before->value) * (share - before->share) / (row.share - before->share);
    }
    before = &row;
  }
  return before->value;
}

}  // namespace

Quantity<Dimension{.length = 2, .time = -2, .temperature = -1}> liquid_capacity(
    MassFraction ethanol) {
  return Quantity<Dimension{.length = 2, .time = -2, .temperature = -1}>::from_si(
      1000 * between_rows("capacity", ethanol.value()));
}

Energy heat_of_mixing(Mass ethanol, Mass water) {
  const double all = ethanol.si() + water.si();
  if (all <= 0) return {};
  const double moles = ethanol.si() / constants::molar_mass::ethanol.value.si() +
                       water.si() / constants::molar_mass::water.value.si();
  const double x = mole_fraction(MassFraction(ethanol.si() / all)).value();
  return Energy::from_si(-moles * between_rows("mixing", x));
}

}  // namespace barm::chemistry

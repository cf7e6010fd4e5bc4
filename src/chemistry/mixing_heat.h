#pragma once
#include "units/fraction.h"
#include "units/quantity.h"
#include "units/units.h"

namespace barm::chemistry {

/// Heat to warm a kilogram of ethanol and water by a kelvin, near room temperature: more than the
/// parts apart where there is little ethanol. Straight lines between the rows of
/// data/tables/ethanol_water_mixing.csv. Range: 0..1; outside it a contract is broken. Source:
/// crc_handbook, remembered. Checked against: tests/chemistry/mixing_heat_test.cpp.
[[nodiscard]] Quantity<Dimension{.length = 2, .time = -2, .temperature = -1}> liquid_capacity(
    MassFraction ethanol);

/// Heat that warms the whole when so much ethanol and water are poured together, near room
/// temperature; straight lines between the rows of the same table. Source: remembered. Checked
/// against: tests/chemistry/mixing_heat_test.cpp.
[[nodiscard]] Energy heat_of_mixing(Mass ethanol, Mass water);

}  // namespace barm::chemistry
